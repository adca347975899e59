/** Cases and steps for tests of the shelf, and the two kinds of shelf, each with a clock that ticks a millisecond a call. */
import 'fake-indexeddb/auto'
import bowline from '../../boards/bowline-8.json'
import { readFileSync } from 'node:fs'
import { CASE_VERSION, type Case, type History, loadCase, startHistory, step } from '../../src/case/index.ts'
import type { CaseShelf, ShelfEntry } from '../../src/view/shelf/caseShelf.ts'
import { openDatabaseShelf } from '../../src/view/shelf/databaseShelf.ts'
import { caseShelfInMemory } from '../../src/view/shelf/memoryShelf.ts'
import type { Result } from '../../src/base/index.ts'

export const BOARD = 'bowline-8'
export const board: unknown = bowline

export function value<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

export const caseOf = (fields: Readonly<Record<string, unknown>> = {}): Case =>
  value(
    loadCase({ format: 'liftmap-case', version: CASE_VERSION, title: 'a card', board: { inline: bowline }, ...fields }),
  )

/** A history of so many edits, each another account of what happened; every report text is shared by all of them. */
export function edited(first: Case, edits: number): History<Case> {
  let history = startHistory(first)
  for (let i = 1; i <= edits; i++) {
    history = step(history, { ...history.present, arrival: { ...history.present.arrival, account: `edit ${i}` } })
  }
  return history
}

let names = 0
export const freshName = (): string => `shelf-${++names}`

export function ticking(start = Date.UTC(2026, 2, 1)): () => number {
  let now = start
  return () => ++now
}

export const kinds: readonly (readonly [string, () => CaseShelf])[] = [
  ['in memory', () => caseShelfInMemory(ticking())],
  ['in the database', () => openDatabaseShelf({ name: freshName(), now: ticking() })],
]

export const titles = (entries: Result<readonly ShelfEntry[]>): string[] => value(entries).map(({ title }) => title)

export const fixture = (path: string): unknown => JSON.parse(readFileSync(`tests/fixtures/${path}`, 'utf8'))
