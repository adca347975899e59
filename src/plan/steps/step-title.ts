/** Steps of a plan by name, as the bench says them. */
import { joined } from '../../base/index.ts'
import type { PlanStep, StepAction } from '../result.ts'

const AT_PARTS: Readonly<Record<StepAction, string>> = {
  bake: 'Bake',
  'take-up': 'Take up what lies at',
  wash: 'Wash',
  dry: 'Dry',
  test: 'Test again',
  prepare: 'Prepare',
  unglue: 'Break the glue of',
  lift: 'Lift',
  clean: 'Clean under',
  reball: 'Reball',
  replace: 'Make ready a new',
  refit: 'Refit',
  inspect: 'Inspect',
}

/** Work on the whole card, whichever parts it is done for. */
const AT_THE_CARD: Partial<Readonly<Record<StepAction, string>>> = {
  bake: 'Bake the card',
  'take-up': 'Take up by hand what lies on the card',
  wash: 'Wash the card',
  dry: 'Dry the card',
  test: 'Test the card again',
  prepare: 'Prepare the card',
}

/** @returns `Wash the card`, `Lift U1 and U13` */
export function stepTitle({ action, refs }: Pick<PlanStep, 'action' | 'refs'>): string {
  const atCard = AT_THE_CARD[action]
  if (atCard !== undefined) return atCard
  if (action === 'replace' && refs.length > 1) return `Make ready new parts for ${joined(refs)}`
  return refs.length === 0 ? AT_PARTS[action] : `${AT_PARTS[action]} ${joined(refs)}`
}
