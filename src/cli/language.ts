/** The language of the command line: `--language`, or LIFTMAP_LANGUAGE where that is not given; English otherwise. */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { z } from 'zod'
import { type Catalogue, languages, speak } from '../base/index.ts'

const OPTION = '--language'
const WORDS = fileURLToPath(new URL('../../words/', import.meta.url))
const pageSchema = z.record(z.string(), z.string())

/**
 * Speaks as it is wished; a language that nobody knows is passed over here, for the command line refuses it in words.
 * @param words the words after `liftmap`
 */
export function speakAsWished(
  words: readonly string[],
  environment: Readonly<Record<string, string | undefined>>,
): void {
  const wished = wishIn(words) ?? environment['LIFTMAP_LANGUAGE']
  const language = languages.find((tag) => tag === wished)
  if (language !== undefined && language !== 'en') speak(language, catalogueOf(language))
}

/** `--language de` or `--language=de`, wherever it stands. */
function wishIn(words: readonly string[]): string | undefined {
  const at = words.findIndex((word) => word === OPTION || word.startsWith(`${OPTION}=`))
  const word = words[at]
  return word === undefined ? undefined : word === OPTION ? words[at + 1] : word.slice(OPTION.length + 1)
}

function catalogueOf(language: string): Catalogue {
  const folder = join(WORDS, language)
  return Object.assign(
    {},
    ...readdirSync(folder).map((name) => pageSchema.parse(JSON.parse(readFileSync(join(folder, name), 'utf8')))),
  )
}
