/**
 * XML as a stream, for data files only: elements and attributes. Refuses what such files have no need of and attacks are made of:
 * document types, entities of their own, endless tags, deep nesting. Source: W3C, "Extensible Markup Language 1.0", fifth edition,
 * 2008.
 */
import { bad, type Fault, good, type Result, showValue, say } from '../../../base/index.ts'

export interface XmlElement {
  readonly name: string
  readonly attributes: Readonly<Record<string, string>>
  readonly children: readonly XmlElement[]
  readonly line: number
}

/** What becomes of an element: its children are told one by one, it comes as a whole, or nothing of it is read. */
export type XmlWish = 'enter' | 'take' | 'skip'

export interface XmlReading {
  readonly file: string
  readonly root: string
  readonly onOpen: (name: string, attributes: () => Readonly<Record<string, string>>) => XmlWish
  readonly onClose: (name: string) => void
  readonly onElement: (element: XmlElement) => void
  readonly onProgress?: ((readBytes: number) => void) | undefined
  readonly signal?: AbortSignal | undefined
}

const DEEPEST = 100
const LONGEST_TAG = 1_000_000
const LONGEST_TEXT = 16_000_000
/** Of one element that comes as a whole. */
const MOST_CHILDREN = 3_000_000

/** @returns a fault with the line where the text stops being XML; nothing after it is told */
export async function readXml(source: AsyncIterable<Uint8Array>, reading: XmlReading): Promise<Result<undefined>> {
  const reader = new XmlReader(reading)
  let decoder: TextDecoder | undefined
  let bytes = 0
  try {
    for await (const piece of source) {
      reading.signal?.throwIfAborted()
      decoder ??= new TextDecoder(piece[0] === 0xff ? 'utf-16le' : piece[0] === 0xfe ? 'utf-16be' : 'utf-8')
      bytes += piece.length
      reader.push(decoder.decode(piece, { stream: true }))
      reading.onProgress?.(bytes)
    }
    reader.push(decoder?.decode() ?? '')
    reader.end()
  } catch (error) {
    if (error instanceof XmlFault) return bad(error.fault)
    throw error
  }
  return good(undefined)
}

/** From where the last one ended: a run of blanks is looked at once. */
const ATTRIBUTE = /\s*([^\s=<>"'/]+)\s*=\s*(?:"([^"<]*)"|'([^'<]*)')/y

class XmlFault extends Error {
  readonly fault: Fault
  constructor(fault: Fault) {
    super(fault.found)
    this.fault = fault
  }
}

interface OpenElement extends XmlElement {
  readonly children: OpenElement[]
}

class XmlReader {
  private readonly reading: XmlReading
  private buffer = ''
  private line = 1
  private readonly open: string[] = []
  /** Elements of the whole that is being built, the innermost last. */
  private readonly whole: OpenElement[] = []
  private children = 0
  /** How many elements are open since the one of which nothing is read; 0 where all is read. */
  private skipped = 0
  private hasRoot = false

  constructor(reading: XmlReading) {
    this.reading = reading
  }

  push(text: string): void {
    this.buffer = this.buffer === '' ? text : this.buffer + text
    let at = 0
    while (at < this.buffer.length) {
      const next = this.takeOne(at)
      if (next === undefined) break
      at = next
    }
    this.buffer = this.buffer.slice(at)
    if (this.buffer.length > LONGEST_TEXT)
      this.refuse(say('text or a remark without an end'), say('at most 16 MB of it'))
  }

  end(): void {
    if (this.buffer.trim() !== '') this.refuse(say('the end of the file within a tag'), say('a whole tag'))
    const [root] = this.open
    if (root !== undefined)
      this.refuse(
        say('the end of the file within <{open}>', { open: this.open.at(-1) ?? root }),
        say('the end of <{root}>', { root }),
      )
    if (!this.hasRoot) this.refuse(say('no element'), `<${this.reading.root}>`)
  }

  private refuse(found: string, expected: string): never {
    throw new XmlFault({ path: `${this.reading.file}, line ${this.line}`, found, expected })
  }

  /** @returns where the next thing begins; undefined where this one hasn't come whole yet */
  private takeOne(at: number): number | undefined {
    const { buffer } = this
    const start = buffer.indexOf('<', at)
    if (start < 0) {
      this.checkText(buffer.slice(at))
      this.count(at, buffer.length)
      return buffer.length
    }
    if (start > at) {
      this.checkText(buffer.slice(at, start))
      this.count(at, start)
      return start
    }
    if (buffer.length - start < 9 && !buffer.includes('>', start)) return undefined
    if (buffer.startsWith('<!--', start)) return this.past('-->', start)
    if (buffer.startsWith('<![CDATA[', start)) return this.past(']]>', start)
    if (buffer.startsWith('<?', start)) return this.past('?>', start)
    if (buffer.startsWith('<!', start)) this.refuse(say('a document type or an entity'), say('plain elements'))
    return this.takeTag(start)
  }

  private past(mark: string, start: number): number | undefined {
    const end = this.buffer.indexOf(mark, start)
    if (end < 0) return undefined
    this.count(start, end)
    return end + mark.length
  }

  private takeTag(start: number): number | undefined {
    const end = this.tagEnd(start)
    if (end === undefined) {
      if (this.buffer.length - start > LONGEST_TAG) this.refuse(say('a tag without an end'), say('at most 1 MB of it'))
      return undefined
    }
    const inside = this.buffer.slice(start + 1, end)
    if (inside.startsWith('/')) this.close(inside.slice(1).trim())
    else this.takeOpen(inside)
    this.count(start, end)
    return end + 1
  }

  /** A sign for the end may stand in an attribute. */
  private tagEnd(start: number): number | undefined {
    const { buffer } = this
    let end = buffer.indexOf('>', start)
    for (let from = start; end >= 0; ) {
      const quote = firstQuote(buffer, from, end)
      if (quote < 0) return end
      const closing = buffer.indexOf(buffer[quote] ?? '"', quote + 1)
      if (closing < 0) return undefined
      if (closing > end) end = buffer.indexOf('>', closing)
      from = closing + 1
    }
    return undefined
  }

  private takeOpen(inside: string): void {
    const isEmpty = inside.endsWith('/')
    const body = isEmpty ? inside.slice(0, -1) : inside
    const name = /^[\p{L}_:][\p{L}\p{N}_:.-]*/u.exec(body)?.[0]
    if (name === undefined) this.refuse(showValue(`<${inside}>`), say('a tag'))
    if (this.open.length === 0) {
      if (this.hasRoot) this.refuse(say('a second root <{name}>', { name }), say('the end of the file'))
      if (localName(name) !== this.reading.root) this.refuse(`<${name}>`, `<${this.reading.root}>`)
      this.hasRoot = true
    }
    if (this.open.length >= DEEPEST)
      this.refuse(say('elements within each other {deepest} deep', { deepest: DEEPEST }), 'fewer')
    this.open.push(name)
    this.begin(localName(name), body.slice(name.length))
    if (isEmpty) this.close(name)
  }

  private begin(name: string, attributes: string): void {
    if (this.skipped > 0) {
      this.skipped++
      return
    }
    const parent = this.whole.at(-1)
    if (parent === undefined) {
      const wish = this.reading.onOpen(name, () => this.attributesIn(attributes))
      if (wish === 'skip') this.skipped = 1
      if (wish !== 'take') return
      this.children = 0
    }
    if (++this.children > MOST_CHILDREN) this.refuse(`<${this.whole[0]?.name ?? name}> of too many elements`, 'fewer')
    const element = { name, attributes: this.attributesIn(attributes), children: [], line: this.line }
    parent?.children.push(element)
    this.whole.push(element)
  }

  private close(name: string): void {
    const opened = this.open.pop()
    if (opened !== name) this.refuse(`</${name.slice(0, 40)}>`, opened === undefined ? say('no end') : `</${opened}>`)
    if (this.skipped > 0) {
      this.skipped--
      return
    }
    const element = this.whole.pop()
    if (element === undefined) this.reading.onClose(localName(name))
    else if (this.whole.length === 0) this.reading.onElement(element)
  }

  private attributesIn(text: string): Record<string, string> {
    const attributes: Record<string, string> = {}
    let at = 0
    ATTRIBUTE.lastIndex = 0
    for (let found = ATTRIBUTE.exec(text); found !== null; found = ATTRIBUTE.exec(text)) {
      at = ATTRIBUTE.lastIndex
      const [, name = '', double, single] = found
      const value = double ?? single ?? ''
      attributes[localName(name)] = value.includes('&') ? this.plain(value) : value
    }
    if (text.slice(at).trim() !== '')
      this.refuse(showValue(text.slice(at).trim()), say('attributes such as name="value"'))
    return attributes
  }

  private checkText(text: string): void {
    if (this.open.length === 0 && text.replace(/^\ufeff/, '').trim() !== '') {
      this.line += (/^\s*/.exec(text)?.[0] ?? '').split('\n').length - 1
      this.refuse(
        showValue(text.trim().slice(0, 80)),
        this.hasRoot ? say('the end of the file') : `<${this.reading.root}>`,
      )
    }
    if (this.skipped === 0 && text.includes('&')) this.plain(text)
  }

  private plain(text: string): string {
    return text.replaceAll(/&([^;&\s]{0,12});?/g, (all, name: string) => {
      const value = all.endsWith(';') ? characterOf(name) : undefined
      return value ?? this.refuse(all.slice(0, 20), say('one of the five entities of XML or a character by its number'))
    })
  }

  private count(from: number, to: number): void {
    for (let at = this.buffer.indexOf('\n', from); at >= 0 && at < to; at = this.buffer.indexOf('\n', at + 1))
      this.line++
  }
}

function firstQuote(text: string, from: number, to: number): number {
  for (let i = from; i < to; i++) {
    const code = text.charCodeAt(i)
    if (code === 34 || code === 39) return i
  }
  return -1
}

const localName = (name: string): string => (name.includes(':') ? name.slice(name.indexOf(':') + 1) : name)

const NAMED: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" }

function characterOf(name: string): string | undefined {
  const digits = /^#(?:x([0-9a-f]{1,6})|(\d{1,7}))$/i.exec(name)
  if (digits === null) return Object.hasOwn(NAMED, name) ? NAMED[name] : undefined
  const code = digits[1] === undefined ? Number(digits[2]) : Number.parseInt(digits[1], 16)
  return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : undefined
}
