/** Practice on a card by hand, with a Liftmap that hands back at once. */
import {
  type Asker,
  type Practice,
  type PracticeAction,
  practiceOn,
  type PracticeView,
} from '../../src/rehearsal/index.ts'
import { type ByHand, handCard, model } from './hand-card.ts'
import { nothingJudged } from '../../src/suspects/index.ts'

export const quietAsker: Asker = {
  model,
  ask: () => nothingJudged,
  costsOf: () => [],
  propose: () => ({ kind: 'hand-back' }),
  proposeWithoutChecks: () => ({ kind: 'hand-back' }),
  remedies: () => ({ steps: [], expectedCost: 0, minutes: 0, works: undefined, others: [] }),
  open: () => [],
}

export async function practise(by: ByHand, asker: Asker = quietAsker): Promise<Practice> {
  const practice = await practiceOn(handCard(by), { board: 'small', seed: 1, difficulty: 'plain' }, () => asker)
  if (!practice.ok) throw new Error('the card could not be read')
  return practice.value
}

export const viewOf = async (by: ByHand, actions: readonly PracticeAction[] = []): Promise<PracticeView> =>
  (await practise(by)).view(actions)

export const endOf = async (by: ByHand, actions: readonly PracticeAction[], asker: Asker = quietAsker) => {
  const result = (await practise(by, asker)).result(actions)
  if (!result.ok) throw new Error('not handed back')
  return result.value
}

export const REPAIRED: PracticeAction = { kind: 'hand-back', as: 'repaired' }
