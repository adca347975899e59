/** In which language and manner the page speaks: kept by this browser, taken from it where nothing was chosen. */
import { type Catalogue, type Language, languageFor, speak, type SpeechWish, speechSchema } from '../../base/index.ts'

const KEY = 'liftmap speech'

const catalogues: Readonly<Record<Language, () => Promise<Catalogue>>> = {
  en: async () => ({}),
  de: async () => (await import('./german.ts')).german,
}

/** What was chosen here; nothing where nothing is kept or it can't be read. */
export function speechWishIn(storage: Pick<Storage, 'getItem'> | undefined): SpeechWish {
  try {
    return speechSchema.parse(JSON.parse(storage?.getItem(KEY) ?? '{}'))
  } catch {
    return speechSchema.parse({})
  }
}

/** @returns whether the browser kept it */
export function keepSpeechWish(storage: Pick<Storage, 'setItem'> | undefined, wish: SpeechWish): boolean {
  try {
    storage?.setItem(KEY, JSON.stringify(wish))
    return storage !== undefined
  } catch {
    return false
  }
}

/**
 * Speaks from now on as it is wished. What modules hold as constants is said when they are loaded: nothing else may be
 * loaded before.
 * @param wanted languages of the browser, the best first
 */
export async function speakAsWished(
  storage: Pick<Storage, 'getItem'> | undefined,
  wanted: readonly string[],
): Promise<void> {
  const { language: chosen, ...manner } = speechWishIn(storage)
  const language = languageFor(chosen, wanted)
  speak(language, await catalogues[language](), manner)
  document.documentElement.lang = language
}
