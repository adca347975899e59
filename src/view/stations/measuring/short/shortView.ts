/** The open hunt, its answer where it is about this very hunt, and what the sheet shows of both. */
import { useMemo } from 'react'
import { useStore } from 'zustand'
import type { ProbePlace, ShortAnswer, ShortHunt } from '../../../../measure/index.ts'
import type { ShortView } from '../../../sheet/index.ts'
import { useBoard, useDesk, usePresent, useScreen } from '../../../stores/hooks.ts'
import { type ShortState, shortStoreOf } from './shortStore.ts'

export function useShort<T>(select: (state: ShortState) => T): T {
  return useStore(shortStoreOf(useDesk()), select)
}

/** The one that was opened, else the last of the case. */
export function useOpenHunt(): ShortHunt | undefined {
  const shorts = usePresent()?.shorts
  const open = useShort((state) => state.open)
  return shorts?.find(({ id }) => id === open) ?? shorts?.at(-1)
}

export function useShortAnswer(hunt: ShortHunt | undefined): ShortAnswer | undefined {
  const answer = useShort((state) => state.answer)
  const about = useShort((state) => state.model)
  const model = useBoard()?.model
  if (answer === undefined || hunt === undefined || about !== model) return undefined
  return answer.hunt === hunt.id && answer.rail === hunt.rail ? answer : undefined
}

/** The point that the next reading is for. */
export function useNextPlace(answer: ShortAnswer | undefined): ProbePlace | undefined {
  const chosen = useShort((state) => state.place)
  return chosen ?? answer?.next
}

/** At the station of cold measuring only. */
export function useShortView(): ShortView | undefined {
  const here = useScreen((screen) => screen.station === 'cold-measuring')
  const hunt = useOpenHunt()
  const answer = useShortAnswer(hunt)
  const next = useNextPlace(answer)
  return useMemo(
    () => (here && hunt !== undefined ? viewOf(hunt, answer, next) : undefined),
    [here, hunt, answer, next],
  )
}

/** With these verdicts no place is named. */
export const UNPLACED: readonly ShortAnswer['verdict'][] = ['too-few', 'weak', 'no-fit']

export function viewOf(hunt: ShortHunt, answer: ShortAnswer | undefined, next: ProbePlace | undefined): ShortView {
  const silent = answer === undefined || UNPLACED.includes(answer.verdict)
  return {
    side: hunt.side,
    sourceAt: hunt.sourceAt,
    readings: hunt.readings.map(({ at }, i) => ({ at, refused: answer?.readings[i]?.refused !== undefined })),
    next,
    field:
      answer === undefined
        ? undefined
        : {
            grid: answer.grid,
            density: answer.density,
            copper: answer.copper,
            best: silent ? undefined : answer.best,
          },
  }
}
