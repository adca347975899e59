/** How numbers and days are written: by the language, unless the shop says otherwise. Chosen once, as the language is. */
import { z } from 'zod'

/** What a language writes by itself, or one of these ways whatever the language. */
export const numberStyles = ['by language', '1,234.5', '1.234,5', '1 234,5'] as const
export const dayStyles = ['by language', '2026-11-05', '05.11.2026', '11/05/2026', '05/11/2026'] as const

export const mannerSchema = z.strictObject({
  numbers: z.enum(numberStyles).default('by language'),
  days: z.enum(dayStyles).default('by language'),
  alsoUs: z.boolean().default(false).describe('degrees Fahrenheit and inches beside °C and mm'),
})
export type Manner = z.infer<typeof mannerSchema>

/** As the language has it, metric alone. */
export const plainManner: Manner = mannerSchema.parse({})

/** Locales that write numbers so. */
const NUMBER_LOCALES: Readonly<Record<Exclude<Manner['numbers'], 'by language'>, string>> = {
  '1,234.5': 'en-GB',
  '1.234,5': 'de-DE',
  '1 234,5': 'fr-FR',
}

let locale = 'en-GB'
let manner = plainManner
let decimal = '.'
let dayLocale = 'en-GB'

/** @param language whose ways hold where the manner says `by language`, as a BCP 47 tag */
export function writeAs(language: string, wanted: Manner): void {
  const own = language === 'en' ? 'en-GB' : language
  manner = wanted
  locale = wanted.numbers === 'by language' ? own : NUMBER_LOCALES[wanted.numbers]
  dayLocale = own
  decimal = new Intl.NumberFormat(locale).formatToParts(0.5).find(({ type }) => type === 'decimal')?.value ?? '.'
}

/** What stands before the decimals. */
export const decimalSign = (): string => decimal

/** Grouped, with at least and at most so many decimals: `1,234.50`. */
export const grouped = (value: number, least: number, most = least): string =>
  value.toLocaleString(locale, { minimumFractionDigits: least, maximumFractionDigits: most })

/** So many decimals and no groups: `1234.50`. */
export const decimals = (value: number, digits: number): string => value.toFixed(digits).replace('.', decimal)

/** A number as it is, with the decimal sign of the manner. */
export const plainly = (value: number): string => String(value).replace('.', decimal)

/** `2026-11-05` becomes `5 November 2026`, or what the manner says; what is no such day stays as it is. */
export function dayWords(day: string): string {
  const [, year, month, date] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(day) ?? []
  if (year === undefined || month === undefined || date === undefined || Number(month) < 1 || Number(month) > 12)
    return day
  switch (manner.days) {
    case 'by language':
      return new Date(Date.UTC(Number(year), Number(month) - 1, Number(date))).toLocaleDateString(dayLocale, {
        day: 'numeric',
        month: 'long',
        year: 'numeric',
        timeZone: 'UTC',
      })
    case '2026-11-05':
      return day
    case '05.11.2026':
      return `${date}.${month}.${year}`
    case '11/05/2026':
      return `${month}/${date}/${year}`
    case '05/11/2026':
      return `${date}/${month}/${year}`
  }
}

/** Fahrenheit and inches stand behind °C and mm where the manner asks for them. */
export const alsoInUs = (): boolean => manner.alsoUs

/** Not what stands within a longer number, nor what a sentence within this one has brought with it already. */
const IN_METRIC =
  /(?<![\d.,\u202f])([+\u2212-]?\d+(?:[.,]\d+)?)(?:( [a-z]+ )([+\u2212-]?\d+(?:[.,]\d+)?))?[ \u00a0](°C|mm)(?![\p{L}/²³]| \([^()]+(?:°F|in)\))/gu

/** `air 304 °C` becomes `air 304 °C (579 °F)`, `5 to 12 mm` becomes `5 to 12 mm (0.2 to 0.47 in)`. */
export const besideUs = (text: string): string =>
  text.replaceAll(
    IN_METRIC,
    (all, first: string, between: string | undefined, last: string | undefined, unit: string) => {
      const one = inUs(first, unit)
      const other = last === undefined ? '' : `${between ?? ' '}${inUs(last, unit)}`
      return `${all} (${one}${other} ${unit === 'mm' ? 'in' : '°F'})`
    },
  )

const MM_PER_INCH = 25.4

function inUs(text: string, unit: string): string {
  const value = Number(text.replace(',', '.').replace('\u2212', '-'))
  return unit === 'mm'
    ? plainly(Number((value / MM_PER_INCH).toPrecision(2)))
    : String(Math.round((value * 9) / 5 + 32))
}
