/** A record of the database back to a case with its undo steps: checked like a case file, parts put back, sharing kept. */
import { z } from 'zod'
import { bad, type Fault, faultsFromZod, good, type Result } from '../../base/index.ts'
import { type BoardDescription, boardSchema } from '../../board/index.ts'
import { type Case, type History, loadCase } from '../../case/index.ts'
import type { PartName } from './packing.ts'

const plainSchema = z.record(z.string(), z.unknown())
const listSchema = z.array(z.unknown()).catch([])
const contentSchema = z.object({ present: plainSchema, past: listSchema, future: listSchema })
const partNameSchema: z.ZodType<PartName> = z.strictObject({ part: z.string() })

export interface Unpacked {
  readonly history: History<Case>
  readonly droppedSteps: number
  /** The keys of the parts by their values, as the history holds them now. */
  readonly known: ReadonlyMap<unknown, string>
}

/**
 * @param parts raw, by key
 * @returns every fault of the present state; steps of undo and redo that can't be read are left out and counted
 */
export function unpackContent(raw: unknown, parts: ReadonlyMap<string, unknown>): Result<Unpacked> {
  const content = contentSchema.safeParse(raw)
  if (!content.success) return bad(...faultsFromZod(content.error, raw))
  const { known, boardOf, textOf } = readParts(parts)
  const seen = new Map<object, unknown>()
  const fields = rememberFields()
  const stateOf = (state: unknown): Result<Case> => {
    const plain = plainSchema.safeParse(state)
    if (!plain.success) return bad(...faultsFromZod(plain.error, state))
    const { fresh, checkedBefore } = fields.split(plain.data)
    const reports = listSchema.parse(fresh['reports'])
    // what lies apart was checked once already: something short goes through the schema in its place
    const checked = loadCase({
      ...fresh,
      board: partName(fresh['board']) === undefined ? fresh['board'] : { path: 'kept apart' },
      reports: reports.map((report) => (textPart(report) === undefined ? report : { ...Object(report), text: '' })),
    })
    if (!checked.ok) return checked
    const faults = putBack(checked.value, fresh['board'], reports)
    if (faults.length > 0) return bad(...faults)
    for (const [field, value] of checkedBefore) Reflect.set(checked.value, field, value)
    share(state, checked.value, seen)
    fields.remember(plain.data, checked.value)
    return checked
  }
  const putBack = (caseFile: Case, rawBoard: unknown, rawReports: readonly unknown[]): readonly Fault[] => {
    const faults: Fault[] = []
    const boardKey = partName(rawBoard)
    if (boardKey !== undefined) {
      const board = boardOf(boardKey)
      if (board.ok) caseFile.board = { inline: board.value }
      else faults.push(...board.faults)
    }
    for (const [i, report] of caseFile.reports.entries()) {
      const textKey = textPart(rawReports[i])
      if (textKey === undefined) continue
      const text = textOf(textKey)
      if (text.ok) report.text = text.value
      else faults.push(...text.faults)
    }
    return faults
  }
  const present = stateOf(content.data.present)
  if (!present.ok) return present
  const readable = (states: readonly unknown[]): Case[] =>
    states.map(stateOf).flatMap((state) => (state.ok ? [state.value] : []))
  const past = readable(content.data.past)
  const future = readable(content.data.future)
  const droppedSteps = content.data.past.length + content.data.future.length - past.length - future.length
  return good({ history: { present: present.value, past, future, joinKey: undefined }, droppedSteps, known })
}

/** The key of a part that lies apart. */
export const partName = (raw: unknown): string | undefined => partNameSchema.safeParse(raw).data?.part

const textPart = (report: unknown): string | undefined =>
  typeof report === 'object' && report !== null ? partName(Reflect.get(report, 'text')) : undefined

/** Each part is checked once, however many steps name it. */
function readParts(parts: ReadonlyMap<string, unknown>) {
  const known = new Map<unknown, string>()
  const once = <T>(schema: z.ZodType<T>) => {
    const read = new Map<string, Result<T>>()
    return (key: string): Result<T> => {
      const before = read.get(key)
      if (before !== undefined) return before
      const parsed = schema.safeParse(parts.get(key))
      const result = parsed.success ? good(parsed.data) : bad(...faultsFromZod(parsed.error, parts.get(key)))
      if (result.ok) known.set(result.value, key)
      read.set(key, result)
      return result
    }
  }
  const boards: z.ZodType<BoardDescription> = boardSchema
  return { known, boardOf: once(boards), textOf: once(z.string()) }
}

/**
 * A step mostly changes one field of the case, and shares the others with the step before: those were checked with that
 * step and need not be again. A field that is left out takes its default until what was checked is put in its place.
 */
function rememberFields() {
  const byField = new Map<string, Map<unknown, unknown>>()
  const ofField = (state: Readonly<Record<string, unknown>>, field: string): Map<unknown, unknown> => {
    const key = `${String(state['version'])} ${field}`
    const known = byField.get(key) ?? new Map<unknown, unknown>()
    byField.set(key, known)
    return known
  }
  const isShared = (field: string, value: unknown): boolean =>
    field !== 'board' && typeof value === 'object' && value !== null
  return {
    split: (state: Readonly<Record<string, unknown>>) => {
      const fresh: Record<string, unknown> = {}
      const checkedBefore: [string, unknown][] = []
      for (const [field, value] of Object.entries(state)) {
        const known = isShared(field, value) ? ofField(state, field).get(value) : undefined
        if (known === undefined) fresh[field] = value
        else checkedBefore.push([field, known])
      }
      return { fresh, checkedBefore }
    },
    remember: (state: Readonly<Record<string, unknown>>, checked: Case): void => {
      for (const [field, value] of Object.entries(state)) {
        if (isShared(field, value)) ofField(state, field).set(value, Reflect.get(checked, field))
      }
    },
  }
}

/** Where two steps held one object before they were checked, they hold one again: records and memory stay small. */
function share(raw: unknown, checked: unknown, seen: Map<object, unknown>): unknown {
  if (typeof raw !== 'object' || raw === null || typeof checked !== 'object' || checked === null) return checked
  const before = seen.get(raw)
  if (before !== undefined) return before
  seen.set(raw, checked)
  for (const key of Object.keys(checked)) {
    const inner: unknown = Reflect.get(checked, key)
    const shared = share(Reflect.get(raw, key), inner, seen)
    if (shared !== inner) Reflect.set(checked, key, shared)
  }
  return checked
}
