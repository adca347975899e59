/** `npm run generate`: writes every generated file that is kept in the repository. */
import { mkdirSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'
import { generatedBoards } from './generate-boards.ts'
import { generatedReports } from './generate-reports.ts'

let written = 0
// One after the other: the reports are walked over the boards as they stand in their files.
for (const generated of [generatedBoards, generatedReports]) {
  for (const [path, text] of generated()) {
    mkdirSync(dirname(path), { recursive: true })
    writeFileSync(path, text)
    written++
  }
}
process.stdout.write(`${written} files written\n`)
