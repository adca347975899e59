/** What a hunt has found, in plain sentences. */
import { decimals, percent, say } from '../../base/index.ts'
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
        say(
          'Two readings at least: one alone says nothing, since the drop in the short itself and in the leads is not known.',
        ),
      ]
    case 'weak':
      return [
        say(
          'With {currentA} A all places of the short would read nearly the same: the current is too small, or the points are too close together, to tell where it sinks.',
          { currentA: hunt.currentA },
        ),
      ]
    case 'flat':
      return [
        say(
          'All readings are the same within their noise, where most places of a short would make them differ. Either it sinks the current close to where that goes in, or the current does not flow in this copper: it may leave by a stage or an inductor beside the point of injection.',
        ),
        placeWords(answer),
      ]
    case 'no-fit':
      return [
        say('The readings don’t fit one short on this copper.{answer}', { answer: worstWords(answer) }),
        CAUSES,
        leastBadWords(answer),
      ]
    case 'place':
      return [placeWords(answer), ...beyondWords(model, answer)]
  }
}

const CAUSES = say(
  'Two shorts, copper that is shaped otherwise than taken here, a slipped probe, or a part that was warm may be behind it.',
)

const placeWords = ({ best, radius90Mm, area90Mm2 }: Told): string =>
  say(
    'The current most likely sinks near x {x}, y {y} mm; 90 % lies within {radius90Mm} mm of that, on {area} of copper.',
    {
      x: decimals(best.x, 1),
      y: decimals(best.y, 1),
      radius90Mm: decimals(radius90Mm, radius90Mm < 10 ? 1 : 0),
      area:
        area90Mm2 >= 100
          ? say('{area90Mm2} cm²', { area90Mm2: decimals(area90Mm2 / 100, 1) })
          : say('{area90Mm2} mm²', { area90Mm2: decimals(area90Mm2, 0) }),
    },
  )

/** With readings that do not fit, shares and distances would tell of a model that does not hold. */
const leastBadWords = ({ best }: Told): string =>
  say(
    'Of all single shorts one near x {x}, y {y} mm fits least badly: a place to read again, not yet one to take a part off.',
    { x: decimals(best.x, 1), y: decimals(best.y, 1) },
  )

function worstWords({ readings, fit }: Told): string {
  const worst = readings
    .map(({ deviation }, i) => ({ i, off: Math.abs(deviation ?? 0) }))
    .toSorted((a, b) => b.off - a.off)[0]
  if (worst === undefined || fit === undefined) return ''
  return say(
    ' Chance alone would make them this bad in {tail} of hunts; reading {i} is off most, by {off} standard deviations.',
    { tail: percent(Math.max(fit.tail, Number.MIN_VALUE)), i: worst.i + 1, off: decimals(worst.off, 1) },
  )
}

function beyondWords(model: BoardModel, { parts }: Told): string[] {
  const first = parts[0]
  const kind = first === undefined ? undefined : model.partByRef.get(first.ref)?.kind
  if (kind !== 'inductor' && kind !== 'power-stage') return []
  return [
    say(
      'The likeliest part, {ref}, joins this copper to more: the short may lie beyond it. Check its other side before lifting anything.',
      { ref: first?.ref },
    ),
  ]
}

const NOTABLE_SCALE = 1.3

function scaleWords(hunt: ShortHunt, { scale, verdict }: Told): string[] {
  if (verdict !== 'place' && verdict !== 'no-fit') return []
  if (scale < NOTABLE_SCALE && scale > 1 / NOTABLE_SCALE) return []
  const by = hunt.sheetMilliohm === undefined ? 'weight' : 'measured'
  return [
    scale > 1
      ? say(
          'By the readings the copper resists {scale} times more than {by, select, weight {its weight gives} other {was measured}}.',
          { scale: decimals(scale, 1), by },
        )
      : say(
          'By the readings the copper resists {times} times less than {by, select, weight {its weight gives} other {was measured}}, or less current flows in it than was put in.',
          { times: decimals(1 / scale, 1), by },
        ),
  ]
}

const squareWords = (hunt: ShortHunt, { sheetMilliohm }: Told): string =>
  hunt.sheetMilliohm === undefined
    ? say('A square of it is taken as {sheetMilliohm} mΩ at 20 °C, by its weight; the readings may correct that.', {
        sheetMilliohm: decimals(sheetMilliohm, 2),
      })
    : say('A square of it is taken as {sheetMilliohm} mΩ, as measured.', { sheetMilliohm: decimals(sheetMilliohm, 2) })
