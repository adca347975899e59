/** `npm run words`: brings every language of the catalogue in line with the sources and prints what waits for translation. */
import { readdirSync } from 'node:fs'
import { updateCatalogue } from './words.ts'

const languages = process.argv.length > 2 ? process.argv.slice(2) : readdirSync('words')
for (const language of languages) console.log(language, updateCatalogue(language))
