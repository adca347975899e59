/** The languages that can be spoken, and the wish of who sits there: one of them, and how numbers and days are written. */
import { z } from 'zod'
import { mannerSchema } from './manner.ts'

/** By BCP 47 tag, each by its own name. */
export const languageNames = { en: 'English', de: 'Deutsch' } as const
export type Language = keyof typeof languageNames
export const languages = ['en', 'de'] as const satisfies readonly Language[]

/** Where no language was chosen, the first wanted one that can be spoken holds. */
export const speechSchema = mannerSchema.extend({ language: z.enum(languages).optional() })
export type SpeechWish = z.infer<typeof speechSchema>

/**
 * @param chosen what was set, if anything
 * @param wanted BCP 47 tags, the best first, such as those of a browser
 */
export function languageFor(chosen: Language | undefined, wanted: readonly string[]): Language {
  if (chosen !== undefined) return chosen
  for (const tag of wanted) {
    const known = languages.find((language) => tag.toLowerCase().split('-')[0] === language)
    if (known !== undefined) return known
  }
  return 'en'
}
