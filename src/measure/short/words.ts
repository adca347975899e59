/** What a hunt has found, in plain sentences. */
import { percent } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import type { ShortHunt } from '../schema.ts'
import type { ShortAnswer } from './result.ts'

type Told = Pick<
  ShortAnswer,
  'verdict' | 'best' | 'radius90Mm' | 'area90Mm2' | 'parts' | 'scale' | 'sheetMilliohm' | 'readings' | 'fit'
>

/**
 * What was found first, then how the currents' scale is known, what copper was taken, and what its sheet resistance
 * rests on.
 */
export function sentencesOf(model: BoardModel, copperSaid: string, hunt: ShortHunt, answer: Told): string[] {
  return [...findingOf(model, hunt, answer), ...scaleWords(hunt, answer), copperSaid, squareWords(hunt, answer)]
}

function findingOf(model: BoardModel, hunt: ShortHunt, answer: Told): string[] {
  switch (answer.verdict) {
    case 'too-few':
      return [
        'Two readings at least: one alone says nothing, since the drop in the short itself and in the leads is not known.',
      ]
    case 'weak':
      return [
        `With ${hunt.currentA} A all places of the short would read nearly the same: the current is too small, or the points are too close together, to tell where it sinks.`,
      ]
    case 'flat':
      return [
        'All readings are the same within their noise, where most places of a short would make them differ. Either it sinks the current close to where that goes in, or the current does not flow in this copper: it may leave by a stage or an inductor beside the point of injection.',
        placeWords(answer),
      ]
    case 'no-fit':
      return [`The readings don’t fit one short on this copper.${worstWords(answer)}`, ...causes, leastBadWords(answer)]
    case 'place':
      return [placeWords(answer), ...beyondWords(model, answer)]
  }
}

const causes = [
  'Two shorts, copper that is shaped otherwise than taken here, a slipped probe, or a part that was warm may be behind it.',
] as const

const placeWords = ({ best, radius90Mm, area90Mm2 }: Told): string =>
  `The current most likely sinks near x ${best.x.toFixed(1)}, y ${best.y.toFixed(1)} mm; 90 % lies within ${radius90Mm.toFixed(radius90Mm < 10 ? 1 : 0)} mm of that, on ${area90Mm2 >= 100 ? `${(area90Mm2 / 100).toFixed(1)} cm²` : `${area90Mm2.toFixed(0)} mm²`} of copper.`

/** With readings that do not fit, shares and distances would tell of a model that does not hold. */
const leastBadWords = ({ best }: Told): string =>
  `Of all single shorts one near x ${best.x.toFixed(1)}, y ${best.y.toFixed(1)} mm fits least badly: a place to read again, not yet one to take a part off.`

function worstWords({ readings, fit }: Told): string {
  const worst = readings
    .map(({ deviation }, i) => ({ i, off: Math.abs(deviation ?? 0) }))
    .toSorted((a, b) => b.off - a.off)[0]
  if (worst === undefined || fit === undefined) return ''
  return ` Chance alone would make them this bad in ${percent(Math.max(fit.tail, Number.MIN_VALUE))} of hunts; reading ${worst.i + 1} is off most, by ${worst.off.toFixed(1)} standard deviations.`
}

function beyondWords(model: BoardModel, { parts }: Told): string[] {
  const first = parts[0]
  const kind = first === undefined ? undefined : model.partByRef.get(first.ref)?.kind
  if (kind !== 'inductor' && kind !== 'power-stage') return []
  return [
    `The likeliest part, ${first?.ref}, joins this copper to more: the short may lie beyond it. Check its other side before lifting anything.`,
  ]
}

const NOTABLE_SCALE = 1.3

function scaleWords(hunt: ShortHunt, { scale, verdict }: Told): string[] {
  if (verdict !== 'place' && verdict !== 'no-fit') return []
  if (scale < NOTABLE_SCALE && scale > 1 / NOTABLE_SCALE) return []
  const than = hunt.sheetMilliohm === undefined ? 'its weight gives' : 'was measured'
  return [
    scale > 1
      ? `By the readings the copper resists ${scale.toFixed(1)} times more than ${than}.`
      : `By the readings the copper resists ${(1 / scale).toFixed(1)} times less than ${than}, or less current flows in it than was put in.`,
  ]
}

const squareWords = (hunt: ShortHunt, { sheetMilliohm }: Told): string =>
  hunt.sheetMilliohm === undefined
    ? `A square of it is taken as ${sheetMilliohm.toFixed(2)} mΩ at 20 °C, by its weight; the readings may correct that.`
    : `A square of it is taken as ${sheetMilliohm.toFixed(2)} mΩ, as measured.`
