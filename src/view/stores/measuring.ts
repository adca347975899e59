/** What the measuring stations derive from case and board, each remembered for the last question. */
import { useMemo } from 'react'
import { useStore } from 'zustand'
import type { BoardModel } from '../../board/index.ts'
import {
  type Case,
  cautionAgainstPower,
  type LookFirst,
  lookFirst,
  powerOf,
  shortsFirst,
  usualPhase,
} from '../../case/index.ts'
import { type LineVerdict, lineVerdicts, type Phase, type PowerJudgement, type Quantity } from '../../measure/index.ts'
import { remembering } from './derive.ts'
import { useBoard, useDesk, usePresent, useResults } from './hooks.ts'
import { meterStoreOf } from './meterStore.ts'

type Readings = Pick<Case, 'measurements' | 'goodReadings' | 'leads' | 'supplies'>

const rememberedVerdicts = () =>
  remembering(
    (
      model: BoardModel,
      measurements: Case['measurements'],
      goodReadings: Case['goodReadings'],
      leads: Case['leads'],
      supplies: Case['supplies'],
      quantity: Quantity,
      phase: Phase,
    ) => lineVerdicts(model, { measurements, goodReadings, leads, supplies }, quantity, phase),
  )

const verdictsBy = { ohms: rememberedVerdicts(), diode: rememberedVerdicts(), volts: rememberedVerdicts() } as const

export const verdictsOf = (
  model: BoardModel,
  { measurements, goodReadings, leads, supplies }: Readings,
  quantity: Quantity,
  phase: Phase,
): LineVerdict[] => verdictsBy[quantity](model, measurements, goodReadings, leads, supplies, quantity, phase)

const judgedBy = remembering(
  (
    model: BoardModel,
    measurements: Case['measurements'],
    goodReadings: Case['goodReadings'],
    leads: Case['leads'],
    supplies: Case['supplies'],
    marks: Case['marks'],
    arrival: Case['arrival'],
    cleaned: Case['cleaned'],
    ticks: Case['ticks'],
    powered: Case['powered'],
    phase: Phase,
  ) => powerOf(model, { measurements, goodReadings, leads, supplies, marks, arrival, cleaned, ticks, powered }, phase),
)

export const powerJudgementOf = (model: BoardModel, present: Case, phase: Phase): PowerJudgement => {
  const { measurements, goodReadings, leads, supplies, marks, arrival, cleaned, ticks, powered } = present
  return judgedBy(model, measurements, goodReadings, leads, supplies, marks, arrival, cleaned, ticks, powered, phase)
}

export function usePhase(): Phase {
  const desk = useDesk()
  const present = usePresent()
  const id = useStore(desk.cases, (state) => state.id)
  const phase = useStore(meterStoreOf(desk), (state) => state.phase)
  if (phase !== undefined && phase.ofCase === id) return phase.chosen
  return present === undefined ? 'before' : usualPhase(present)
}

export function usePowerJudgement(): PowerJudgement | undefined {
  const board = useBoard()
  const present = usePresent()
  const phase = usePhase()
  return board === undefined || present === undefined ? undefined : powerJudgementOf(board.model, present, phase)
}

/** Why the card should not be powered yet, in sentences. */
export function usePowerCaution(): readonly string[] {
  const present = usePresent()
  const judgement = usePowerJudgement()
  return present === undefined ? [] : cautionAgainstPower(present, judgement).map(({ sentence }) => sentence)
}

/** Rails that read short: found before anything else. */
export function useShortsFirst(): LookFirst | undefined {
  const model = useBoard()?.model
  const present = usePresent()
  return useMemo(
    () => (model === undefined || present === undefined ? undefined : shortsFirst(model, present, usualPhase(present))),
    [model, present],
  )
}

/** What is looked at before any heat: rails that read short, and what no lift mends. */
export function useLookFirst(): readonly LookFirst[] {
  const shorts = useShortsFirst()
  const suspects = useResults((results) => results.assessment?.suspects)
  return useMemo(() => lookFirst(shorts, suspects), [shorts, suspects])
}
