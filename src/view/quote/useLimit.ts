/** How far the case on the desk has come to the limit that was agreed. */
import { useMemo } from 'react'
import { costOfStep, limitState, type LimitState, settingsOf, spentSoFar } from '../../case/index.ts'
import { useBoard, usePlan, usePresent } from '../stores/hooks.ts'

/** Undefined where nothing was agreed. */
export function useLimit(): LimitState | undefined {
  const present = usePresent()
  const model = useBoard()?.model
  const exposures = usePlan((plan) => plan.exposures)
  const next = usePlan((plan) => plan.answer?.best.steps[0])
  return useMemo(() => {
    if (present?.quote === undefined || model === undefined) return undefined
    const settings = settingsOf(present)
    if (settings === undefined) return undefined
    const nextMoney = next === undefined ? 0 : costOfStep(next, model, settings)
    return limitState(present.quote, spentSoFar(present, model, exposures).money, nextMoney)
  }, [present, model, exposures, next])
}
