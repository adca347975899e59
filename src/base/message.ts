/**
 * Every sentence that people read goes through here: English stands where it is said, other languages in one catalogue
 * (`words/`). The language is chosen once, before anything is said, as a process has one locale.
 */
import { IntlMessageFormat } from 'intl-messageformat'
import { alsoInUs, besideUs, decimalSign, type Manner, plainly, plainManner, writeAs } from './manner.ts'

/** English message to its translation. */
export type Catalogue = Readonly<Record<string, string>>

export interface Speech {
  readonly language: string
  readonly catalogue: Catalogue
  readonly manner: Manner
}

let language = 'en'
let catalogue: Catalogue = {}
let manner = plainManner
const compiled = new Map<string, IntlMessageFormat>()

/**
 * Chooses the language of all that is said from now on. Words that modules hold as constants are said when the module is
 * loaded: call it before the rooms are imported.
 * @param tag a BCP 47 language tag
 * @param translations what each English message is in that language; what it lacks is said in English
 * @param written how numbers and days are written, where not as the language does
 */
export function speak(tag: string, translations: Catalogue, written: Manner = plainManner): void {
  language = tag
  catalogue = translations
  manner = written
  compiled.clear()
  writeAs(tag, written)
}

/** All that `speak` was told, to hand on to a worker. */
export const speech = (): Speech => ({ language, catalogue, manner })

/** The language that is spoken, as a BCP 47 tag. */
export const spoken = (): string => language

type Value = string | number | null | undefined

/**
 * One sentence, label or line in the language that is spoken.
 * @param message English, as an ICU message: `Lift {ref}`, `{count, plural, one {# ball} other {# balls}}`
 * @param values what its placeholders stand for, in words or numbers already formatted; a plural needs the number itself
 */
export function say(message: string, values?: Readonly<Record<string, Value>>): string {
  const text = catalogue[message] || message
  const said = /[{']/.test(text) ? String(formatOf(message, text).format(inMarks(values))) : text
  return alsoInUs() ? besideUs(said) : said
}

/** Numbers that are not whole, with the decimal sign of the manner; texts come as they are to be read. */
function inMarks<T>(values: Readonly<Record<string, T>> | undefined): Readonly<Record<string, T | string>> | undefined {
  if (decimalSign() === '.' || values === undefined) return values
  return Object.fromEntries(
    Object.entries(values).map(([name, value]) => [
      name,
      typeof value === 'number' && !Number.isInteger(value) ? plainly(value) : value,
    ]),
  )
}

/**
 * The same, where a value is more than text: an element of the screen within a sentence.
 * @returns text and values in the order in which the language puts them
 */
export function sayParts<T>(message: string, values: Readonly<Record<string, Value | T>>): (string | T)[] {
  const said = formatOf(message, catalogue[message] || message).format<T>({ ...inMarks(values) })
  return Array.isArray(said) ? said : [said]
}

function formatOf(message: string, text: string): IntlMessageFormat {
  let format = compiled.get(message)
  if (format === undefined) {
    format = new IntlMessageFormat(text, language === 'en' ? 'en-GB' : language, undefined, { ignoreTag: true })
    compiled.set(message, format)
  }
  return format
}

/** What stands in place of a source is said; published sources keep their language. */
export const NO_SOURCE: ReadonlySet<string> = new Set([
  'common practice, no source',
  'from memory',
  'stated, no source',
  'stated, no source; measured on simulated cards',
  'sum of stated minutes, no source',
  'tried on a 12-package ring',
  'chosen for an answer within seconds',
  'from what the solved passes of the shipped boards take',
])

/** `hourlyRate` becomes `hourly rate`, `rail-branch` becomes `rail branch`: a key as the message that stands for it. */
export const spacedName = (key: string): string =>
  key.replace(/([a-z])([A-Z])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`).replaceAll('-', ' ')

/** A name that the program goes by (a figure, a kind of cause) as people read it; a name of their own stays as it is. */
export function sayName(key: string): string {
  const name = spacedName(key)
  return catalogue[name] || name
}

/** Fields of shipped data that people read. */
export const SHOWN_FIELDS: ReadonlySet<string> = new Set([
  'name',
  'words',
  'what',
  'how',
  'with',
  'cautions',
  'caution',
  'question',
  'found',
  'notFound',
  'reason',
  'why',
])

/**
 * Data as it was shipped, with the texts in the fields that people read said in the language that is spoken.
 * @param data what came from a JSON file of the application itself; never what a person entered
 */
export function sayData<T>(data: T): T {
  return language === 'en' ? data : inField(data, '')
}

function inField<T>(data: T, field: string): T
function inField(data: unknown, field: string): unknown {
  if (typeof data === 'string')
    return SHOWN_FIELDS.has(field) || (field === 'source' && NO_SOURCE.has(data)) ? catalogue[data] || data : data
  if (Array.isArray(data)) return data.map((one) => inField(one, field))
  if (typeof data !== 'object' || data === null) return data
  return Object.fromEntries(Object.entries(data).map(([name, value]) => [name, inField(value, name)]))
}
