/** What the hand keeps from one mark to the next: the kind that was marked last, and whether it holds its tool. View state only. */
import { useStore } from 'zustand'
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { Tool } from '../sheet/index.ts'
import type { Desk } from './desk.ts'
import { useDesk } from './hooks.ts'

export type MarkKind = Extract<Tool, 'residue' | 'film' | 'corrosion' | 'clean' | 'slip'>

export const markKinds = ['residue', 'film', 'corrosion', 'clean', 'slip'] as const satisfies readonly MarkKind[]

export const isMarkKind = (tool: Tool): tool is MarkKind => markKinds.some((kind) => kind === tool)

export interface ToolState {
  readonly markKind: MarkKind
  /** The tool stays in the hand after each mark. */
  readonly isLocked: boolean
  /** Chosen before a first spill was pointed at. */
  readonly nextSubstance: string | undefined
}

export type ToolStore = StoreApi<ToolState>

const stores = new WeakMap<Desk, ToolStore>()

export function toolStoreOf(desk: Desk): ToolStore {
  const known =
    stores.get(desk) ??
    createStore<ToolState>(() => ({ markKind: 'residue', isLocked: false, nextSubstance: undefined }))
  stores.set(desk, known)
  return known
}

export function useTools<T>(select: (state: ToolState) => T): T {
  return useStore(toolStoreOf(useDesk()), select)
}
