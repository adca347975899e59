/** Steps of a plan by name, as the bench says them. */
import { joined, say } from '../../base/index.ts'
import type { PlanStep, StepAction } from '../result.ts'

const AT_PARTS: Readonly<Record<StepAction, string>> = {
  bake: 'Bake',
  'take-up': say('Take up what lies at'),
  wash: 'Wash',
  dry: 'Dry',
  test: say('Test again'),
  prepare: 'Prepare',
  unglue: say('Break the glue of'),
  lift: 'Lift',
  clean: say('Clean under'),
  reball: 'Reball',
  replace: say('Make ready a new'),
  refit: 'Refit',
  inspect: 'Inspect',
}

/** Work on the whole card, whichever parts it is done for. */
const AT_THE_CARD: Partial<Readonly<Record<StepAction, string>>> = {
  bake: say('Bake the card'),
  'take-up': say('Take up by hand what lies on the card'),
  wash: say('Wash the card'),
  dry: say('Dry the card'),
  test: say('Test the card again'),
  prepare: say('Prepare the card'),
}

/** @returns `Wash the card`, `Lift U1 and U13` */
export function stepTitle({ action, refs }: Pick<PlanStep, 'action' | 'refs'>): string {
  const atCard = AT_THE_CARD[action]
  if (atCard !== undefined) return atCard
  if (action === 'replace' && refs.length > 1) return say('Make ready new parts for {refs}', { refs: joined(refs) })
  return refs.length === 0 ? AT_PARTS[action] : `${AT_PARTS[action]} ${joined(refs)}`
}
