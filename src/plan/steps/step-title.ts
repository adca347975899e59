/** Steps of a plan by name, as the bench says them. */
import { joined, say } from '../../base/index.ts'
import type { PlanStep, StepAction } from '../result.ts'

/** Work on the whole card, whichever parts it is done for. */
const AT_THE_CARD: ReadonlySet<StepAction> = new Set(['bake', 'take-up', 'wash', 'dry', 'test', 'prepare'])

/** Whether it is work on the whole card. */
export const isOfTheCard = (action: StepAction): boolean => AT_THE_CARD.has(action)

/** Without names where it is for no part. */
const TITLES: Readonly<Record<StepAction, (refs: string) => string>> = {
  bake: () => say('Bake the card'),
  'take-up': () => say('Take up by hand what lies on the card'),
  wash: () => say('Wash the card'),
  dry: () => say('Dry the card'),
  test: () => say('Test the card again'),
  prepare: () => say('Prepare the card'),
  unglue: (refs) => say('Break the glue of {refs}', { refs }),
  lift: (refs) => say('Lift {refs}', { refs }),
  clean: (refs) => say('Clean under {refs}', { refs }),
  reball: (refs) => say('Reball {refs}', { refs }),
  replace: (refs) => say('Make ready a new {refs}', { refs }),
  refit: (refs) => say('Refit {refs}', { refs }),
  inspect: (refs) => say('Inspect {refs}', { refs }),
}

/** @returns `Wash the card`, `Lift U1 and U13` */
export function stepTitle({ action, refs }: Pick<PlanStep, 'action' | 'refs'>): string {
  if (isOfTheCard(action)) return TITLES[action]('')
  if (action === 'replace' && refs.length > 1) return say('Make ready new parts for {refs}', { refs: joined(refs) })
  return TITLES[action](joined(refs)).trim()
}
