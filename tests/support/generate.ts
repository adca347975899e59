/** `npm run generate`: writes every generated file that is kept in the repository. */
import { mkdirSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'
import { generatedBoards } from './generate-boards.ts'

const files = generatedBoards()
for (const [path, text] of files) {
  mkdirSync(dirname(path), { recursive: true })
  writeFileSync(path, text)
}
process.stdout.write(`${files.size} files written\n`)
