/** Scores that an earlier run reached with the same sources: a run that was stopped goes on where it was. */
import { createHash } from 'node:crypto'
import { appendFileSync, existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Task } from './task.ts'

export const CACHE = 'node_modules/.cache/scorecard'
const SOURCES = [
  'src/base',
  'src/board',
  'src/report',
  'src/measure',
  'src/spill',
  'src/suspects',
  'src/rehearsal',
  'boards',
]

export interface Kept {
  readonly lines: ReadonlyMap<number, string>
  readonly add: (line: string) => void
}

export function keptScores(task: Task): Kept {
  mkdirSync(CACHE, { recursive: true })
  const file = join(CACHE, `${hashOf(task)}.jsonl`)
  const lines = new Map<number, string>()
  const text = existsSync(file) ? readFileSync(file, 'utf8') : ''
  if (text !== '' && !text.endsWith('\n')) appendFileSync(file, '\n')
  for (const line of text.split('\n')) {
    const number = numberOf(line)
    if (number !== undefined) lines.set(number, line)
  }
  return { lines, add: (line) => appendFileSync(file, `${line}\n`) }
}

/** A line that was cut off when a run was stopped counts for nothing. */
function numberOf(line: string): number | undefined {
  try {
    const parsed: unknown = JSON.parse(line)
    if (typeof parsed !== 'object' || parsed === null || !('number' in parsed)) return undefined
    return typeof parsed.number === 'number' ? parsed.number : undefined
  } catch {
    return undefined
  }
}

function hashOf(task: Task): string {
  const hash = createHash('sha256').update(JSON.stringify(task))
  for (const folder of SOURCES) {
    const files = readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && /\.(ts|json)$/.test(entry.name))
      .map((entry) => join(entry.parentPath, entry.name))
      .toSorted()
    for (const file of files) hash.update(file).update(readFileSync(file))
  }
  return hash.digest('hex').slice(0, 24)
}
