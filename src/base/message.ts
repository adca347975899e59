/**
 * Every sentence that people read goes through here: English stands where it is said, other languages in one catalogue
 * (`words/`). The language is chosen once, before anything is said, as a process has one locale.
 */
import { IntlMessageFormat } from 'intl-messageformat'

/** English message to its translation. */
export type Catalogue = Readonly<Record<string, string>>

let language = 'en'
let catalogue: Catalogue = {}
const compiled = new Map<string, IntlMessageFormat>()

/**
 * Chooses the language of all that is said from now on. Words that modules hold as constants are said when the module is
 * loaded: call it before the rooms are imported.
 * @param tag a BCP 47 language tag
 * @param translations what each English message is in that language; what it lacks is said in English
 */
export function speak(tag: string, translations: Catalogue): void {
  language = tag
  catalogue = translations
  compiled.clear()
}

/** The language that is spoken, as a BCP 47 tag. */
export const spoken = (): string => language

/**
 * One sentence, label or line in the language that is spoken.
 * @param message English, as an ICU message: `Lift {ref}`, `{count, plural, one {# ball} other {# balls}}`
 * @param values what its placeholders stand for, in words or numbers already formatted; a plural needs the number itself
 */
export function say(message: string, values?: Readonly<Record<string, string | number | null | undefined>>): string {
  const text = catalogue[message] ?? message
  if (!text.includes('{') && !text.includes("'")) return text
  let format = compiled.get(message)
  if (format === undefined) {
    format = new IntlMessageFormat(text, language === 'en' ? 'en-GB' : language, undefined, { ignoreTag: true })
    compiled.set(message, format)
  }
  return String(format.format(values))
}
