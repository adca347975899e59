/** The last change that the status line tells, and what the lift list said of each state of the case. */
import { useStore } from 'zustand'
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { Case, Station } from '../../case/index.ts'
import type { PartSuspicion } from '../../suspects/index.ts'
import { actWords, movedWords } from './acts.ts'
import type { Desk } from './desk.ts'
import { useDesk, useResults, useScreen } from './hooks.ts'

interface LastAct {
  readonly before: Case
  readonly after: Case
  /** Where it was made; undefined until the screen has come to rest there. */
  readonly station: Station | undefined
}

interface ActState {
  readonly last: LastAct | undefined
}

const stores = new WeakMap<Desk, StoreApi<ActState>>()
const needs = new WeakMap<Case, readonly PartSuspicion[]>()

export function actStoreOf(desk: Desk): StoreApi<ActState> {
  const known = stores.get(desk) ?? createStore<ActState>(() => ({ last: undefined }))
  stores.set(desk, known)
  return known
}

export const keepNeeds = (present: Case, parts: readonly PartSuspicion[]): void => void needs.set(present, parts)

/** `Spill set. U1 48 to 95 %`; undefined where nothing was done at this station, or it was undone. */
export function useActWords(): string | undefined {
  const desk = useDesk()
  const last = useStore(actStoreOf(desk), (state) => state.last)
  const present = useStore(desk.cases, ({ history }) => history?.present)
  const parts = useResults((results) => results.assessment?.suspects.parts)
  const station = useScreen((screen) => screen.station)
  if (last === undefined || present !== last.after) return undefined
  if (last.station !== undefined && last.station !== station) return undefined
  const words = actWords(last.before, last.after)
  if (words === undefined) return undefined
  const moved = movedWords(needs.get(last.before) ?? [], needs.has(last.before) ? (parts ?? []) : [])
  return moved === '' ? words : `${words} ${moved}`
}
