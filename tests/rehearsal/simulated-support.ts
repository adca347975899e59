/** Simulated cards of the small board on which one kind of thing happened, with some figures set to never or always. */
import {
  type AccidentKind,
  accidentKinds,
  middleMixture,
  type Mixture,
  type SimulatedCard,
  simulateCard,
} from '../../src/rehearsal/index.ts'
import type { BoardModel } from '../../src/board/index.ts'
import { model } from './hand-card.ts'

export function drawn(
  kind: AccidentKind,
  count: number,
  figures: Partial<Mixture['figures']> = {},
  board: BoardModel = model,
): SimulatedCard[] {
  const middle = middleMixture()
  const weights = { ...middle.weights }
  for (const each of accidentKinds) weights[each] = each === kind ? 1 : 0
  const mixture = { ...middle, weights, figures: { ...middle.figures, secondAccident: 0, ...figures } }
  return Array.from({ length: count }, (_, index) => simulateCard(board, 4000 + index, mixture))
}

export const shareOf = <T>(items: readonly T[], is: (item: T) => boolean): number =>
  items.filter(is).length / items.length

export const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length
