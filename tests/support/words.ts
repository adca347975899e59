/** The catalogue of words: every message of the sources and of the shipped data, by room, with its translation. */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { z } from 'zod'
import { NO_SOURCE, SHOWN_FIELDS, spacedName } from '../../src/base/index.ts'
import { defaultEquipment } from '../../src/heat/index.ts'
import { shippedShopSettings } from '../../src/plan/index.ts'
import { substances } from '../../src/spill/index.ts'
import { assumptionsSchema, shippedAssumptions } from '../../src/suspects/index.ts'
import { saidBelow } from './said.ts'

/** Shipped data whose texts are shown; sources and identifiers in them are not translated. */
export const SHOWN_DATA = [
  'src/case/bench-machine/figures.json',
  'src/heat/assumptions.json',
  'src/heat/rework-limits.json',
  'src/measure/practice.json',
  'src/plan/assumptions.json',
  'src/rehearsal/practice/difficulties.json',
  'src/spill/substance/substances.json',
  'src/suspects/assumptions.json',
  'src/suspects/checks/checks.json',
  'src/suspects/prices/price-book.json',
  'src/suspects/remedies/figures.json',
] as const

/** What stands beside every shipped figure; of a figure it is no name. */
const AROUND_A_FIGURE: ReadonlySet<string> = new Set(['value', 'reason', 'source'])

/** Said in more than one room. */
const SHARED = 'shared'

const pageSchema = z.record(z.string(), z.string())

/** `view/stations/plan/Step.tsx` stands on the page `view-plan`. */
export function pageOf(file: string): string {
  const [, room = '', folder = '', station = ''] = file.split('/')
  if (room !== 'view') return room
  if (folder === 'stations' && !station.includes('.')) return `view-${station}`
  return folder.includes('.') ? room : `view-${folder}`
}

/** Each message, and the page of the catalogue that it stands on. */
export function messagesByPage(): ReadonlyMap<string, string> {
  const pages = new Map<string, string>()
  const note = (message: string, page: string): void => {
    const had = pages.get(message)
    pages.set(message, had === undefined || had === page ? page : SHARED)
  }
  for (const { message, file } of saidBelow('src')) if (message !== undefined) note(message, pageOf(file))
  for (const file of SHOWN_DATA) {
    const data: unknown = JSON.parse(readFileSync(file, 'utf8'))
    for (const text of shownIn(data, '')) note(text, pageOf(file))
  }
  for (const [page, named] of Object.entries(NAMED))
    for (const name of namesIn(named)) if (!AROUND_A_FIGURE.has(name)) note(name, page)
  return pages
}

/** Texts in the fields that people read; a single small word is a name that the program goes by. */
function shownIn(data: unknown, field: string): string[] {
  if (typeof data === 'string')
    return (SHOWN_FIELDS.has(field) && data.trim() !== '') || (field === 'source' && NO_SOURCE.has(data)) ? [data] : []
  if (Array.isArray(data)) return data.flatMap((one) => shownIn(one, field))
  if (typeof data !== 'object' || data === null) return []
  return Object.entries(data).flatMap(([name, value]) => shownIn(value, name))
}

/** What has keys that `sayName` says: figures that a shop may change, its equipment, a substance of its own. */
const NAMED: Readonly<Record<string, object>> = {
  heat: defaultEquipment,
  plan: shippedShopSettings,
  spill: substances,
  suspects: {
    ...shippedAssumptions,
    checks: { finds: {}, falseAlarm: 0 },
    cures: Object.fromEntries(assumptionsSchema.shape.cures.unwrap().keyType.options.map((key) => [key, 0])),
  },
}

function namesIn(data: unknown): string[] {
  if (Array.isArray(data)) return data.flatMap(namesIn)
  if (typeof data !== 'object' || data === null) return []
  return Object.entries(data).flatMap(([key, value]) => [spacedName(key), ...namesIn(value)])
}

/** What a language has by now: each page with its messages and their translations. */
export function catalogueOf(language: string): ReadonlyMap<string, Readonly<Record<string, string>>> {
  const folder = join('words', language)
  if (!existsSync(folder)) return new Map()
  return new Map(
    readdirSync(folder)
      .filter((name) => name.endsWith('.json'))
      .toSorted()
      .map((name) => [
        name.slice(0, -'.json'.length),
        pageSchema.parse(JSON.parse(readFileSync(join(folder, name), 'utf8'))),
      ]),
  )
}

/**
 * Brings the pages of a language in line with what is said: new messages come in with an empty translation, those that
 * nobody says any more go.
 * @returns how many wait for a translation, by page
 */
export function updateCatalogue(language: string): Readonly<Record<string, number>> {
  const known = new Map([...catalogueOf(language).values()].flatMap((page) => Object.entries(page)))
  const pages = new Map<string, Record<string, string>>()
  for (const [message, page] of messagesByPage()) {
    const texts = pages.get(page) ?? {}
    texts[message] = known.get(message) ?? ''
    pages.set(page, texts)
  }
  const folder = join('words', language)
  mkdirSync(folder, { recursive: true })
  for (const name of readdirSync(folder)) if (name.endsWith('.json')) rmSync(join(folder, name))
  for (const [page, texts] of pages)
    writeFileSync(
      join(folder, `${page}.json`),
      `${JSON.stringify(Object.fromEntries(Object.entries(texts).toSorted(byMessage)), null, 1)}\n`,
    )
  return Object.fromEntries(
    [...pages]
      .map(([page, texts]): [string, number] => [page, Object.values(texts).filter((text) => text === '').length])
      .toSorted(byMessage),
  )
}

const byMessage = ([a]: [string, unknown], [b]: [string, unknown]): number => (a < b ? -1 : 1)
