/**
 * A case with its undo steps as a small record: the board and long texts, which all steps share, lie apart as parts and are
 * written once. What steps share stays shared: structured clone writes an object that several steps hold only once.
 */
import type { Case, History, ReportEntry } from '../../case/index.ts'

/** Stands in a record where a part was taken out. */
export interface PartName {
  readonly part: string
}

export type PackedState = Readonly<Record<string, unknown>>

export interface ContentRecord {
  readonly id: string
  readonly present: PackedState
  readonly past: readonly PackedState[]
  readonly future: readonly PackedState[]
}

export interface PartRecord {
  /** The case's id. */
  readonly of: string
  readonly key: string
  readonly value: unknown
}

export interface Packed {
  readonly content: ContentRecord
  readonly parts: ReadonlyMap<string, unknown>
}

export interface Packer {
  readonly pack: (history: History<Case>) => Packed
}

/** Shorter texts stay where they are. */
const LONG_TEXT_CHARACTERS = 10_000

/** @param known parts that are kept already, by their value, so that they keep their keys */
export function createPacker(id: string, known: ReadonlyMap<unknown, string>, newKey: () => string): Packer {
  const keys = new Map(known)
  const states = new WeakMap<Case, PackedState>()
  const reports = new WeakMap<ReportEntry, unknown>()
  const lists = new WeakMap<Case['reports'], readonly unknown[]>()
  const nameOf = (value: unknown): PartName => {
    const key = keys.get(value) ?? newKey()
    keys.set(value, key)
    return { part: key }
  }
  const packReport = (report: ReportEntry): unknown =>
    report.text === undefined || report.text.length < LONG_TEXT_CHARACTERS
      ? report
      : remembered(reports, report, () => ({ ...report, text: nameOf(report.text) }))
  const packState = (state: Case): PackedState =>
    remembered(states, state, () => ({
      ...state,
      board: 'inline' in state.board ? nameOf(state.board.inline) : state.board,
      reports: remembered(lists, state.reports, () => state.reports.map(packReport)),
    }))
  return {
    pack: ({ present, past, future }) => {
      const used = new Set<string>()
      for (const state of [present, ...past, ...future])
        for (const value of partsOf(state)) used.add(nameOf(value).part)
      const parts = new Map<string, unknown>()
      for (const [value, key] of keys) if (used.has(key)) parts.set(key, value)
      const content = { id, present: packState(present), past: past.map(packState), future: future.map(packState) }
      return { content, parts }
    },
  }
}

function remembered<K extends object, V>(memory: WeakMap<K, V>, key: K, make: () => V): V {
  const kept = memory.get(key)
  if (kept !== undefined) return kept
  const made = make()
  memory.set(key, made)
  return made
}

function partsOf(state: Case): unknown[] {
  const texts = state.reports.map((report) => report.text).filter((text) => (text?.length ?? 0) >= LONG_TEXT_CHARACTERS)
  return 'inline' in state.board ? [state.board.inline, ...texts] : texts
}
