/**
 * A streaming reader of s-expressions for KiCad's open file format. Only wanted forms are built; everything else is passed
 * over character by character, so that memory follows what is kept and not the file. It recurses nowhere.
 * Token rules follow KiCad's published file format documentation: bare tokens, and quoted ones with backslash escapes.
 */
import { bad, type Fault, good, type Result, showValue, say } from '../../base/index.ts'
import type { Form, Item } from './forms.ts'

export const MAX_DEPTH = 200
const MAX_TOKEN_CHARACTERS = 1_000_000
const MAX_ITEMS_IN_FORM = 4_000_000

const LINE_FEED = 10
const SPACE = 32
const QUOTE = 34
const OPEN = 40
const CLOSE = 41
const BACKSLASH = 92

export interface ReadFormsOptions {
  /** Name that the outermost form must have. */
  readonly root: string
  /** Whether a form of this name is built; `parent` is the name of the form around it. */
  readonly wants: (name: string, parent: string) => boolean
  /** Whether this word, bare inside such a form, stands for a form whose opening bracket its writer forgot. */
  readonly opensForm: (word: string, parent: string) => boolean
  /** Called with each wanted form directly inside the root, in file order. */
  readonly onForm: (form: Form) => void
  readonly onProgress?: ((readBytes: number) => void) | undefined
  readonly signal?: AbortSignal | undefined
}

interface OpenForm {
  name: string
  named: boolean
  readonly line: number
  readonly items: Item[]
}

/** Reads bytes (UTF-8, any chunk borders, LF or CRLF) to the end and hands over the wanted forms. */
export async function readForms(
  source: AsyncIterable<Uint8Array>,
  options: ReadFormsOptions,
): Promise<Result<{ readonly bytes: number; readonly lines: number }>> {
  const reader = new FormReader(options)
  const decoder = new TextDecoder()
  let bytes = 0
  for await (const chunk of source) {
    if (options.signal?.aborted) return bad(stopped(reader.line))
    bytes += chunk.length
    const fault = reader.push(decoder.decode(chunk, { stream: true }))
    if (fault) return bad(fault)
    options.onProgress?.(bytes)
  }
  if (options.signal?.aborted) return bad(stopped(reader.line))
  const fault = reader.push(decoder.decode()) ?? reader.finish()
  return fault ? bad(fault) : good({ bytes, lines: reader.line })
}

const stopped = (line: number): Fault => ({
  path: `line ${line}`,
  found: say('a request to stop'),
  expected: say('the whole file to be read'),
})

type Mode = 'between' | 'bare' | 'quoted' | 'escape'

/** The state machine behind `readForms`: takes text in any pieces. */
export class FormReader {
  line = 1
  private readonly options: Pick<ReadFormsOptions, 'root' | 'wants' | 'opensForm' | 'onForm'>
  private mode: Mode = 'between'
  private partial = ''
  private depth = 0
  /** Depth to which the skipped form must close, or -1 while nothing is skipped. */
  private skipUntil = -1
  private readonly open: OpenForm[] = []
  private itemCount = 0
  private done = false
  private fault: Fault | undefined

  constructor(options: Pick<ReadFormsOptions, 'root' | 'wants' | 'opensForm' | 'onForm'>) {
    this.options = options
  }

  /** Reads on; a fault is final. */
  push(text: string): Fault | undefined {
    let i = 0
    while (i < text.length && this.fault === undefined) {
      if (this.mode === 'quoted') i = this.readQuoted(text, i)
      else if (this.mode === 'escape') i = this.readEscape(text, i)
      else if (this.skipUntil >= 0) i = this.skip(text, i)
      else if (this.mode === 'bare') i = this.readBare(text, i)
      else i = this.readBetween(text, i)
    }
    return this.fault
  }

  /** To be called after the last piece: a form that is still open is a fault. */
  finish(): Fault | undefined {
    if (this.fault) return this.fault
    if (this.mode === 'bare') this.endToken()
    if (this.fault) return this.fault
    if (!this.done) {
      const found =
        this.depth === 0
          ? say('no form at all')
          : say('the end of the file inside {depth} open brackets', { depth: this.depth })
      this.refuse(
        found,
        say('({root} …) with its closing bracket', { root: this.options.root }),
        say('The file is empty or was cut off.'),
      )
    }
    return this.fault
  }

  private readBetween(text: string, start: number): number {
    for (let i = start; i < text.length; i++) {
      const code = text.charCodeAt(i)
      if (code === LINE_FEED) this.line++
      if (code <= SPACE) continue
      if (this.done) return this.refuse(showValue(text.slice(i, i + 40)), say('nothing after the last bracket'))
      if (code === OPEN) this.openForm()
      else if (code === CLOSE) this.closeForm()
      else {
        if (this.depth === 0) return this.refuseStart(text.slice(i, i + 40))
        this.mode = code === QUOTE ? 'quoted' : 'bare'
        return code === QUOTE ? i + 1 : i
      }
      if (this.fault || this.skipUntil >= 0) return i + 1
    }
    return text.length
  }

  private readBare(text: string, start: number): number {
    let i = start
    for (; i < text.length; i++) {
      const code = text.charCodeAt(i)
      if (code <= SPACE || code === OPEN || code === CLOSE || code === QUOTE) break
    }
    this.take(text, start, i)
    if (i < text.length) this.endToken()
    return i
  }

  private readQuoted(text: string, start: number): number {
    for (let i = start; i < text.length; i++) {
      const code = text.charCodeAt(i)
      if (code === LINE_FEED) this.line++
      else if (code === QUOTE) {
        this.take(text, start, i)
        this.endToken()
        return i + 1
      } else if (code === BACKSLASH) {
        this.take(text, start, i)
        this.mode = 'escape'
        return i + 1
      }
    }
    this.take(text, start, text.length)
    return text.length
  }

  private readEscape(text: string, at: number): number {
    const character = text.charAt(at)
    if (character === '\n') this.line++
    if (this.skipUntil < 0) this.partial += escaped.get(character) ?? character
    this.mode = 'quoted'
    return at + 1
  }

  private skip(text: string, start: number): number {
    for (let i = start; i < text.length; i++) {
      const code = text.charCodeAt(i)
      if (code === LINE_FEED) this.line++
      else if (code === QUOTE) {
        this.mode = 'quoted'
        return i + 1
      } else if (code === OPEN) {
        if (++this.depth > MAX_DEPTH) return this.refuseDepth()
      } else if (code === CLOSE && --this.depth === this.skipUntil) {
        this.skipUntil = -1
        return i + 1
      }
    }
    return text.length
  }

  private take(text: string, from: number, to: number): void {
    if (this.skipUntil >= 0 || to === from) return
    this.partial += text.slice(from, to)
    if (this.partial.length > MAX_TOKEN_CHARACTERS)
      this.refuse(
        say('a text without end'),
        say('texts of at most {maxTokenCharacters} characters', { maxTokenCharacters: MAX_TOKEN_CHARACTERS }),
      )
  }

  private endToken(): void {
    const token = this.partial
    this.partial = ''
    this.mode = 'between'
    if (this.skipUntil >= 0) return
    const form = this.open[this.open.length - 1]
    if (!form) return
    if (form.named) {
      if (this.options.opensForm(token, form.name)) {
        this.depth++
        this.open.push({ name: token, named: true, line: this.line, items: [] })
      } else if (this.open.length > 1) this.keep(form, token)
      return
    }
    form.name = token
    form.named = true
    this.decide(form)
  }

  /** Looks at a form that has just got its name: the root must be the right one, an unwanted form is skipped. */
  private decide(form: OpenForm): void {
    const parent = this.open[this.open.length - 2]
    if (parent === undefined) {
      if (form.name !== this.options.root) this.refuseStart(`(${form.name}`)
      return
    }
    if (this.options.wants(form.name, parent.name)) return
    this.open.pop()
    this.skipUntil = this.depth - 1
  }

  private openForm(): void {
    if (++this.depth > MAX_DEPTH) {
      this.refuseDepth()
      return
    }
    if (this.open.length === 1) this.itemCount = 0
    const parent = this.open[this.open.length - 1]
    if (parent && !parent.named) {
      parent.named = true
      this.decide(parent)
      if (this.fault || this.skipUntil >= 0) return
    }
    this.open.push({ name: '', named: false, line: this.line, items: [] })
  }

  private closeForm(): void {
    const form = this.open.pop()
    if (form === undefined) {
      this.refuse(say('a closing bracket'), `(${this.options.root} …)`)
      return
    }
    this.depth--
    const parent = this.open[this.open.length - 1]
    if (parent === undefined) {
      if (form.named) this.done = true
      else this.refuseStart('()')
    } else if (this.open.length === 1) {
      if (form.named && form.name !== '') this.options.onForm(form)
    } else this.keep(parent, form)
  }

  private keep(form: OpenForm, item: Item): void {
    form.items.push(item)
    if (++this.itemCount > MAX_ITEMS_IN_FORM)
      this.refuse(
        say('a form without end'),
        say('at most {maxItemsInForm} items in one form', { maxItemsInForm: MAX_ITEMS_IN_FORM }),
      )
  }

  private refuseStart(found: string): number {
    return this.refuse(
      showValue(found),
      `(${this.options.root} …`,
      say('Choose a board layout file (.kicad_pcb) of version 4 or newer.'),
    )
  }

  private refuseDepth(): number {
    return this.refuse(
      say('brackets inside more than {maxDepth} others', { maxDepth: MAX_DEPTH }),
      say('a board layout, which nests a dozen deep'),
    )
  }

  private refuse(found: string, expected: string, todo?: string): number {
    this.fault ??= { path: `line ${this.line}`, found, expected, ...(todo === undefined ? {} : { todo }) }
    return Number.MAX_SAFE_INTEGER
  }
}

const escaped: ReadonlyMap<string, string> = new Map([
  ['n', '\n'],
  ['r', '\r'],
  ['t', '\t'],
])
