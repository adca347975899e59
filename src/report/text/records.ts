/** Rows over several lines, and rows of JSON: puts together what belongs together and hands it on as one line. */
import type { Recipe, RecordShape } from '../recipe.ts'
import { stripColourCodes, trimBlanks } from './text.ts'

/** Takes lines one by one, hands on whole records with the number of their first line. */
export interface RecordCutter {
  line(text: string, number: number): void
  end(): void
}

export type TakeRecord = (text: string, firstLine: number, isWhole: boolean) => void

const MAX_LINES = 64

/** Undefined where each line is a row of its own. */
export function recordCutter(
  recipe: Pick<Recipe, 'layout' | 'record'> & Partial<Pick<Recipe, 'skipLinesWith'>>,
  take: TakeRecord,
  isName: (text: string) => boolean = () => false,
): RecordCutter | undefined {
  if (recipe.layout.kind === 'json') return jsonCutter(take, isName)
  return recipe.record === undefined ? undefined : lineJoiner(recipe.record, recipe.skipLinesWith ?? [], take)
}

function lineJoiner(shape: RecordShape, passedOver: readonly string[], take: TakeRecord): RecordCutter {
  let lines: string[] = []
  let first = 0
  /** Lines of the first record that another one followed: what stands behind so many, after a blank line or at the end, is no part. */
  let usual = Number.POSITIVE_INFINITY
  const flush = (isLast: boolean): void => {
    const own = isLast ? lines.slice(0, usual) : lines
    if (own.length > 0) take(own.join(' ; '), first, true)
    for (const [i, line] of lines.slice(own.length).entries()) take(line, first + own.length + i, true)
    lines = []
  }
  const begins = (text: string): boolean =>
    shape.kind === 'starts' ? text.startsWith(shape.text) : shape.kind === 'lines' ? lines.length >= shape.count : false
  return {
    line: (line, number) => {
      const text = trimBlanks(stripColourCodes(line))
      if (text === '') {
        if (shape.kind === 'blank' || lines.length >= usual) flush(false)
        return
      }
      // A remark between belongs to no record.
      if (passedOver.some((remark) => text.includes(remark))) return take(text, number, true)
      if (begins(text) || lines.length >= MAX_LINES) {
        const isRecord = shape.kind === 'starts' && lines[0]?.startsWith(shape.text) === true
        if (isRecord) usual = Math.min(usual, lines.length)
        flush(false)
      }
      if (lines.length === 0) first = number
      lines.push(text)
    },
    end: () => flush(true),
  }
}

const MAX_JSON_CHARACTERS = 64_000_000

/** Objects of JSON, however they are broken into lines; what an object lists becomes rows that inherit its fields. */
function jsonCutter(take: TakeRecord, isName: (text: string) => boolean): RecordCutter {
  let text = ''
  let first = 0
  let depth = 0
  let inString = false
  let escaped = false
  const flush = (isWhole: boolean): void => {
    if (trimBlanks(text) !== '') emit(text, first, isWhole, take, isName)
    text = ''
    depth = 0
    inString = false
  }
  return {
    line: (line, number) => {
      if (depth === 0 && !/[{]/.test(line)) {
        if (trimBlanks(line).replace(/[[\],]/g, '') !== '') take(line, number, true)
        return
      }
      for (const char of line) {
        if (depth === 0 && char !== '{') continue
        if (depth === 0) first = number
        text += char
        if (escaped) escaped = false
        else if (inString) {
          if (char === '\\') escaped = true
          else if (char === '"') inString = false
        } else if (char === '"') inString = true
        else if (char === '{' || char === '[') depth++
        else if (char === '}' || char === ']') {
          depth--
          if (depth === 0) flush(true)
        }
      }
      if (depth > 0) text += '\n'
      if (text.length > MAX_JSON_CHARACTERS) flush(false)
    },
    end: () => flush(false),
  }
}

type Fields = Record<string, string>

function emit(text: string, line: number, isWhole: boolean, take: TakeRecord, isName: (text: string) => boolean): void {
  const value = isWhole ? parsed(text) : undefined
  if (value === undefined) return take(text.replace(/\s+/g, ' '), line, false)
  for (const fields of rowsOf(value, {}, isName)) take(JSON.stringify(fields), line, true)
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** Fields of an outer object carry a mark, so that they are taken for no count of their own. */
export const INHERITED = '^'
/** The field that holds the key of an entry whose keys are names of the board. */
export const KEY = 'key'
/** The field that holds a bare value under such a key. */
const VALUE = 'value'

function rowsOf(value: unknown, inherited: Fields, isName: (text: string) => boolean): Fields[] {
  if (Array.isArray(value)) return value.flatMap((item) => rowsOf(item, inherited, isName))
  if (!isObject(value)) return []
  const own: Fields = {}
  const inner: unknown[] = []
  const keys = Object.keys(value)
  if (mostlyNames(keys, isName)) {
    return keys.filter(isName).flatMap((key) => keyed(key, value[key], inherited, isName))
  }
  collect(value, '', own, inner, isName)
  const down = passedOn(inherited, own)
  const rows = inner.flatMap((entry) => rowsOf(entry, down, isName))
  return rows.length > 0 ? rows : [{ ...inherited, ...own }]
}

function keyed(key: string, value: unknown, outer: Fields, isName: (text: string) => boolean): Fields[] {
  const label = { [labelField(outer)]: key }
  if (isObject(value) || Array.isArray(value)) return rowsOf(value, { ...outer, ...label }, isName)
  return [{ ...outer, ...label, [VALUE]: String(value) }]
}

const labelField = (outer: Fields): string => (outer[KEY] === undefined ? KEY : `${KEY} 2`)

function passedOn(inherited: Fields, own: Fields): Fields {
  const marked = Object.entries(own).map(([key, text]) => [
    key.startsWith(INHERITED) ? key : `${INHERITED}${key}`,
    text,
  ])
  return { ...inherited, ...Object.fromEntries(marked) }
}

/** Scalars become fields, lists of scalars one text; lists of objects, and maps by names of the board, wait for their turn. */
function collect(
  value: Record<string, unknown>,
  path: string,
  own: Fields,
  inner: unknown[],
  isName: (text: string) => boolean,
): void {
  for (const [key, item] of Object.entries(value)) {
    const at = path === '' ? key : `${path}.${key}`
    if (isTable(item)) inner.push(tableOf(item, value))
    else if (Array.isArray(item) && item.some(isObject)) inner.push(item)
    else if (Array.isArray(item)) own[at] = item.map(String).join(' ')
    else if (isObject(item) && mostlyNames(Object.keys(item), isName)) inner.push(item)
    else if (isObject(item)) collect(item, at, own, inner, isName)
    else if (typeof item === 'string' || typeof item === 'number' || typeof item === 'boolean') own[at] = String(item)
  }
}

/** A list of lists of as many plain values each. */
function isTable(item: unknown): item is readonly (readonly unknown[])[] {
  if (!Array.isArray(item) || item.length === 0) return false
  const lists: readonly unknown[] = item
  const [first] = lists
  return (
    Array.isArray(first) &&
    first.length >= 2 &&
    lists.every(
      (row) => Array.isArray(row) && row.length === first.length && !row.some((cell) => typeof cell === 'object'),
    )
  )
}

/** Its rows as objects, by the list of as many texts that stands beside it, or by its own first row, or by number. */
function tableOf(rows: readonly (readonly unknown[])[], around: Record<string, unknown>): Record<string, unknown>[] {
  const width = rows[0]?.length ?? 0
  const areTexts = (list: unknown): list is string[] =>
    Array.isArray(list) &&
    list.length === width &&
    list.every((cell) => typeof cell === 'string' && !/^(?:0x)?\d/.test(cell))
  const beside = Object.values(around).find(areTexts)
  const own = areTexts(rows[0]) ? rows[0] : undefined
  const names = beside ?? own ?? Array.from({ length: width }, (_, i) => `value ${i + 1}`)
  const body = beside === undefined && own !== undefined ? rows.slice(1) : rows
  return body.map((row) => Object.fromEntries(names.map((name, i) => [name, row[i]])))
}

const mostlyNames = (keys: readonly string[], isName: (text: string) => boolean): boolean =>
  keys.length > 0 && keys.filter(isName).length * 2 >= keys.length
