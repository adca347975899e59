/**
 * The points of a power stage as lines of the sheet. Its inductor is none of them: through the windings all stages of a
 * rail read one node there, and twelve such readings tell no more than that of the rail.
 */
import type { BoardModel, PlacedPart, Rail } from '../board/index.ts'
import { type LearntRange, learntKey } from './learn.ts'
import { pointPlaces } from './points.ts'
import { type RailUse, usualOhmsOf } from './practice.ts'
import { type MeasuringLine, siblingsReference, withLearnt } from './reference.ts'
import type { LineName, Quantity, StagePoint } from './schema.ts'

/**
 * Windings and body diodes join the switch nodes in diode mode too. Under power the switch node averages to its rail, at every stage
 * alike, so it is not asked for.
 */
const POINTS: Readonly<Record<Quantity, readonly StagePoint[]>> = {
  ohms: ['input', 'switch', 'driver', 'enable', 'pwm'],
  diode: ['driver', 'enable', 'pwm'],
  volts: ['driver', 'enable', 'pwm'],
}

export interface StageOfRail {
  readonly model: BoardModel
  readonly stage: PlacedPart
  /** Undefined for a stage of no rail. */
  readonly rail: Rail | undefined
  readonly use: RailUse
}

/**
 * One line for each point of a stage that this quantity can be read at, in the sheet's order. A learnt range counts
 * before what siblings give; `learnt` is keyed as by `learntKey`.
 */
export function stageLines(
  { model, stage, rail, use }: StageOfRail,
  quantity: Quantity,
  learnt: ReadonlyMap<string, LearntRange>,
): MeasuringLine[] {
  return POINTS[quantity].map((point) => {
    const line: LineName = { kind: 'stage', name: stage.ref, point }
    const own = siblingsReference(rail?.name, (rail?.stages.length ?? 0) - 1, quantity)
    return {
      line,
      quantity,
      rail: rail?.name,
      use,
      nominalV: rail?.nominalV,
      points: pointPlaces(model, stage, point),
      usual: usualOhmsOf(rail?.nominalV, use),
      ...withLearnt(own, learnt.get(learntKey(line, quantity)), quantity),
    }
  })
}
