/** React's way to the desk: what a component reads of the stores, re-rendered only when that changes. */
import { createContext, useContext } from 'react'
import { useStore } from 'zustand'
import type { Case, Proof, ShopDetails } from '../../case/index.ts'
import type { Tally } from '../../report/index.ts'
import type { OpenBoard } from './caseStore.ts'
import type { NextChecksState } from './checkStore.ts'
import type { Desk } from './desk.ts'
import type { PhotoState } from './photoStore.ts'
import type { PlanState } from './planStore.ts'
import type { Reading } from './readingStore.ts'
import type { ResultState } from './resultStore.ts'
import type { ScreenState } from './screenStore.ts'

export const DeskContext = createContext<Desk | undefined>(undefined)

export function useDesk(): Desk {
  const desk = useContext(DeskContext)
  if (desk === undefined) throw new Error('no desk: the component is not inside App')
  return desk
}

export const usePresent = (): Case | undefined => useStore(useDesk().cases, (state) => state.history?.present)

export const useBoard = (): OpenBoard | undefined => useStore(useDesk().cases, (state) => state.board)

export function useScreen<T>(select: (state: ScreenState) => T): T {
  return useStore(useDesk().screen, select)
}

export function useResults<T>(select: (state: ResultState) => T): T {
  return useStore(useDesk().results, select)
}

export function usePlan<T>(select: (state: PlanState) => T): T {
  return useStore(useDesk().plan, select)
}

export function usePhotos<T>(select: (state: PhotoState) => T): T {
  return useStore(useDesk().photos, select)
}

export const useShopDetails = (): ShopDetails => useStore(useDesk().shopDetails)

export const useNextChecks = (): NextChecksState => useStore(useDesk().nextChecks)

export const useReadings = (): ReadonlyMap<string, Reading> => useStore(useDesk().readings, (state) => state.byId)

/** All that the reports of the card as it came say, added up. */
export const useTally = (): Tally | undefined => useTallyBy(useDesk().tallyOfCase)

/** All that the reports of runs after the work say, added up. */
export const useRetest = (): Tally | undefined => useTallyBy(useDesk().retestOfCase)

/** The runs after the work beside the first, and what their passes show. */
export function useProof(): Proof | undefined {
  const desk = useDesk()
  const present = usePresent()
  const board = useBoard()
  const readings = useReadings()
  const tally = useTally()
  return present === undefined || board === undefined
    ? undefined
    : desk.proofOfCase(board.model, present.reports, readings, tally)
}

function useTallyBy(tallyOf: Desk['tallyOfCase']): Tally | undefined {
  const present = usePresent()
  const board = useBoard()
  const readings = useReadings()
  return present === undefined || board === undefined ? undefined : tallyOf(board.model, present.reports, readings)
}
