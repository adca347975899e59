/** Reads what a PDF shows: its pages and the words on each, from inflated streams and the fonts' maps to Unicode. For tests. */
import { inflateSync } from 'node:zlib'

export interface PdfPage {
  readonly words: string
  readonly mediaBox: readonly number[]
}

/** Knows what pdfkit and Chromium's printer write: one object after the other, Flate streams, two-byte or one-byte codes. */
export function readPdf(bytes: Uint8Array): PdfPage[] {
  const raw = Buffer.from(bytes).toString('latin1')
  const objects = new Map<number, string>()
  for (const match of raw.matchAll(/(?:^|[\r\n])(\d+) 0 obj([\s\S]*?)endobj/g))
    objects.set(Number(match[1]), match[2] ?? '')
  return [...objects.values()]
    .filter((object) => /\/Type\s*\/Page\b(?!s)/.test(object))
    .map((page) => ({ words: pageWords(page, objects), mediaBox: boxOf(page, objects) }))
}

type Objects = ReadonlyMap<number, string>

const follow = (text: string | undefined, objects: Objects): string => {
  const ref = /^\s*(\d+) 0 R/.exec(text ?? '')
  return ref === null ? (text ?? '') : (objects.get(Number(ref[1])) ?? '')
}

function boxOf(page: string, objects: Objects): number[] {
  const own = /\/MediaBox\s*\[([^\]]*)\]/.exec(page)
  const parent = /\/Parent\s+(\d+) 0 R/.exec(page)
  const box = own ?? /\/MediaBox\s*\[([^\]]*)\]/.exec(objects.get(Number(parent?.[1])) ?? '')
  return (box?.[1] ?? '').trim().split(/\s+/).map(Number)
}

function streamOf(object: string): string {
  const start = /stream\r?\n/.exec(object)
  if (start === null) return ''
  const body = object.slice(start.index + start[0].length, object.lastIndexOf('endstream'))
  const bytes = Buffer.from(body, 'latin1')
  return /\/FlateDecode/.test(object.slice(0, start.index)) ? inflateSync(bytes).toString('latin1') : body
}

function pageWords(page: string, objects: Objects): string {
  const resources = follow(/\/Resources\s*(<<[\s\S]*|\d+ 0 R)/.exec(page)?.[1], objects)
  const fontList = follow(/\/Font\s*(<<[\s\S]*?>>|\d+ 0 R)/.exec(resources)?.[1], objects)
  const maps = new Map<string, ReadonlyMap<string, string>>()
  for (const [, name = '', id] of fontList.matchAll(/\/(\w+)\s+(\d+) 0 R/g))
    maps.set(name, unicodeMap(objects.get(Number(id)) ?? '', objects))
  const contents = /\/Contents\s*(\[[^\]]*\]|\d+ 0 R)/.exec(page)?.[1] ?? ''
  const text = [...contents.matchAll(/(\d+) 0 R/g)].map(([, id]) => streamOf(objects.get(Number(id)) ?? '')).join('\n')
  return shownWords(text, maps)
}

function unicodeMap(font: string, objects: Objects): ReadonlyMap<string, string> {
  const id = /\/ToUnicode\s+(\d+) 0 R/.exec(font)?.[1]
  const map = new Map<string, string>()
  const text = id === undefined ? '' : streamOf(objects.get(Number(id)) ?? '')
  const char = (hex: string): string => Buffer.from(hex, 'hex').swap16().toString('utf16le')
  for (const [, body = ''] of text.matchAll(/beginbfchar([\s\S]*?)endbfchar/g))
    for (const [, from = '', to = ''] of body.matchAll(/<(\w+)>\s*<(\w+)>/g)) map.set(from.toLowerCase(), char(to))
  for (const [, body = ''] of text.matchAll(/beginbfrange([\s\S]*?)endbfrange/g))
    for (const [, low = '', high = '', list, single] of body.matchAll(/<(\w+)>\s*<(\w+)>\s*(?:\[([^\]]*)\]|<(\w+)>)/g))
      addRange(map, [low, high], list, single)
  return map
}

function addRange(
  map: Map<string, string>,
  [low, high]: readonly [string, string],
  list: string | undefined,
  single: string | undefined,
): void {
  const first = Number.parseInt(low, 16)
  const code = (offset: number): string => (first + offset).toString(16).padStart(low.length, '0')
  const char = (hex: string): string => Buffer.from(hex.padStart(4, '0'), 'hex').swap16().toString('utf16le')
  if (list !== undefined) {
    // a ligature stands for several letters, with spaces between their codes
    for (const [i, [, hex = '']] of [...list.matchAll(/<([\w ]*)>/g)].entries())
      map.set(code(i), char(hex.replaceAll(' ', '')))
    return
  }
  const last = Number.parseInt(high, 16)
  const start = Number.parseInt(single ?? '0', 16)
  for (let i = 0; i <= last - first; i++) map.set(code(i), String.fromCodePoint(start + i))
}

/** Strings in the order in which they are painted; a new text object or line is a space. */
function shownWords(text: string, maps: ReadonlyMap<string, ReadonlyMap<string, string>>): string {
  let map: ReadonlyMap<string, string> = new Map()
  let words = ''
  for (const [token, font, hex] of text.matchAll(/\/(\w+)\s+[\d.]+\s+Tf|<([0-9a-fA-F]+)>|\bBT\b|\bT[dDm*]\b/g)) {
    if (font !== undefined) map = maps.get(font) ?? new Map()
    else if (hex === undefined) words += token === '' ? '' : ' '
    else for (const [code] of hex.toLowerCase().matchAll(/.{4}/g)) words += map.get(code) ?? '\ufffd'
  }
  return words.replace(/\s+/g, ' ')
}
