/** Torn pads and tracks go into the case; the way of a wire is drawn on the sheet or typed. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import { useStore } from 'zustand'
import type { Point } from '../../../base/index.ts'
import type { Side } from '../../../board/index.ts'
import type { PadRepair } from '../../../case/index.ts'
import { editCase } from '../../actions/edit.ts'
import { takeTool } from '../../actions/tools.ts'
import type { MarkDraft } from '../../sheet/index.ts'
import type { Desk } from '../../stores/desk.ts'
import { useDesk } from '../../stores/hooks.ts'

const MOST = 1000

export type NewPadRepair = Pick<PadRepair, 'ref' | 'pad' | 'hurt' | 'side'>

export function addPadRepair(desk: Desk, made: NewPadRepair): void {
  editCase(desk, (c) => {
    const taken = new Set((c.padRepairs ?? []).map(({ id }) => id))
    let id = `pad-${desk.nextNumber()}`
    while (taken.has(id)) id = `pad-${desk.nextNumber()}`
    const repair: PadRepair = { ...made, id, remedy: 'not yet', via: 'untouched', path: [], note: '' }
    return { ...c, padRepairs: [...(c.padRepairs ?? []), repair].slice(-MOST) }
  })
}

/** @param typed what is typed is one step for undo, a choice is a step of its own */
export function editPadRepair(desk: Desk, id: string, change: Partial<PadRepair>, typed = false): void {
  editCase(
    desk,
    (c) => ({ ...c, padRepairs: (c.padRepairs ?? []).map((each) => (each.id === id ? { ...each, ...change } : each)) }),
    typed ? `${id} ${Object.keys(change).join()}` : undefined,
  )
}

export const removePadRepair = (desk: Desk, id: string): void =>
  editCase(desk, (c) => ({ ...c, padRepairs: (c.padRepairs ?? []).filter((each) => each.id !== id) }))

interface Sketching {
  /** Whose way the next line on the sheet is. */
  readonly id: string | undefined
}

const stores = new WeakMap<Desk, StoreApi<Sketching>>()

function sketchingOf(desk: Desk): StoreApi<Sketching> {
  const known = stores.get(desk) ?? createStore<Sketching>(() => ({ id: undefined }))
  stores.set(desk, known)
  return known
}

/** Whose way is drawn next; nobody's once the tool was put down. */
export function useSketching(): string | undefined {
  return useStore(sketchingOf(useDesk()), ({ id }) => id)
}

/** The line tool is taken up for one way, or put down where it was in the hand for it. */
export function sketchWay(desk: Desk, { id, side }: Pick<PadRepair, 'id' | 'side'>): void {
  const store = sketchingOf(desk)
  const stops = store.getState().id === id && desk.screen.getState().tool === 'dam'
  store.setState({ id: stops ? undefined : id })
  takeTool(desk, stops ? 'select' : 'dam')
  if (stops) return
  // put down in whatever way: the next line is a dam again
  const end = desk.screen.subscribe(({ tool }) => {
    if (tool === 'dam') return
    store.setState({ id: undefined })
    end()
  })
  const camera = desk.cases.getState().board?.camera
  if (camera !== undefined && camera.getState().side !== 'both') camera.setState({ side })
}

/** @returns whether what was drawn is the way that was waited for, and now stands there */
export function takeSketch(desk: Desk, draft: MarkDraft): boolean {
  const store = sketchingOf(desk)
  const { id } = store.getState()
  if (id === undefined) return false
  store.setState({ id: undefined })
  const isThere = desk.cases.getState().history?.present.padRepairs?.some((each) => each.id === id) === true
  if (draft.kind !== 'dam' || !isThere) return false
  editPadRepair(desk, id, { path: rounded(draft.path), side: draft.side })
  desk.screen.setState({ tool: 'select' })
  return true
}

const rounded = (path: readonly Point[]): Point[] =>
  path.map(({ x, y }) => ({ x: Math.round(x * 100) / 100, y: Math.round(y * 100) / 100 })).slice(0, 200)

/** `12.5 40; 13 41.2`, undefined where it is no way. */
export function readWay(typed: string): Point[] | undefined {
  if (typed.trim() === '') return []
  const points = typed.split(';').map((pair) => {
    const [x, y, more] = pair.trim().split(/\s+/).map(Number)
    return x === undefined || y === undefined || more !== undefined || !Number.isFinite(x) || !Number.isFinite(y)
      ? undefined
      : { x, y }
  })
  const way = points.flatMap((point) => point ?? [])
  return way.length === points.length && way.length >= 2 ? way : undefined
}

export const sayWay = (path: readonly Point[]): string => path.map(({ x, y }) => `${x} ${y}`).join('; ')

/** The side that a part stands on. */
export const sideOf = (desk: Desk, ref: string): Side =>
  desk.cases.getState().board?.model.partByRef.get(ref)?.side ?? 'top'
