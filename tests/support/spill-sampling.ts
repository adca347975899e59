/** How far the sum over places is from plain sampling: probabilities of seeded spills, and their change along a line. */
import { type Point, polygonContains, type Random, seededRandom } from '../../src/base/index.ts'
import type { BoardModel } from '../../src/board/index.ts'
import { createReachEngine, type ReachEngine, type SpillMark } from '../../src/spill/index.ts'
import { spillAt, substanceOf, unwrap } from './board-fixture.ts'
import { plainSpills } from './plain-spill.ts'

const LIQUIDS = ['coolant-eg', 'coolant-pg', 'water'] as const
const MOUNTINGS = [undefined, 0, 90, 180, 270] as const

export interface Deviation {
  readonly mark: SpillMark
  readonly region: string
  readonly summed: number
  readonly sampled: number
}

/** A spill of one liquid near a memory part or the core, of any amount and mounting. */
export function seededSpill(model: BoardModel, random: Random): SpillMark {
  const parts = [...model.memories, ...(model.core ? [model.core] : [])].filter(({ side }) => side === 'top')
  for (;;) {
    const part = parts[random.whole(parts.length)]
    if (part === undefined) throw new Error('no part')
    const turn = 2 * Math.PI * random.next()
    const awayMm = 25 * random.next()
    const at = {
      x: part.placement.at.x + awayMm * Math.cos(turn),
      y: part.placement.at.y + awayMm * Math.sin(turn),
    }
    const downDeg = MOUNTINGS[random.whole(MOUNTINGS.length)]
    const mark = spillAt(at.x, at.y, {
      sdMm: 1 + 7 * random.next(),
      substance: LIQUIDS[random.whole(LIQUIDS.length)] ?? 'water',
      amount: { volumeMl: 0.1 * 15 ** random.next() },
      amountSdLog: 0.7 * random.next(),
      ...(downDeg === undefined ? {} : { downDeg }),
    })
    if (polygonContains(model.outline, at)) return mark
  }
}

/** Every region that either way says anything of. */
export function deviationsOf(
  model: BoardModel,
  engine: ReachEngine,
  mark: SpillMark,
  samples: number,
  random: Random,
): Deviation[] {
  const substance = substanceOf(mark.substance)
  const { regions } = unwrap(engine.reach(mark, [], substance))
  const plain = plainSpills(model, mark, substance)
  const hits = new Map<string, number>()
  for (let i = 0; i < samples; i++) {
    for (const id of plain.reachedFrom(plain.drawPlace(random), random)) hits.set(id, (hits.get(id) ?? 0) + 1)
  }
  return regions
    .map(({ id, probability }) => ({
      mark,
      region: id,
      summed: probability,
      sampled: (hits.get(id) ?? 0) / samples,
    }))
    .filter(({ summed, sampled }) => summed > 0 || sampled > 0)
}

/** Standard error of a share that so many samples gave. */
export const samplingError = (share: number, samples: number): number =>
  Math.sqrt(Math.max(share * (1 - share), 1 / samples) / samples)

export interface LineStep {
  readonly at: Point
  readonly summed: ReadonlyMap<string, number>
  readonly sampled: ReadonlyMap<string, number>
}

/**
 * Probabilities while a mark is moved to the right in steps. The samples are drawn once over all that the mark may come
 * from on its way, and weighed anew for each of its places, so that their change is known much better than their value.
 */
export function alongLine(
  mark: SpillMark,
  model: BoardModel,
  stepMm: number,
  steps: number,
  samples: number,
): LineStep[] {
  const substance = substanceOf(mark.substance)
  const engine = createReachEngine(model)
  const plain = plainSpills(model, mark, substance)
  const random = seededRandom(77)
  const reachMm = 3 * mark.sdMm
  const drawn: { at: Point; reached: Set<string> }[] = []
  while (drawn.length < samples) {
    const at = {
      x: mark.at.x - reachMm + (2 * reachMm + stepMm * (steps - 1)) * random.next(),
      y: mark.at.y - reachMm + 2 * reachMm * random.next(),
    }
    if (plain.lands(at)) drawn.push({ at, reached: plain.reachedFrom(at, random) })
  }
  return Array.from({ length: steps }, (_, step) => {
    const at = { x: mark.at.x + step * stepMm, y: mark.at.y }
    const { regions } = unwrap(engine.reach({ ...mark, at }, [], substance))
    return {
      at,
      summed: new Map(regions.map(({ id, probability }) => [id, probability])),
      sampled: weighed(drawn, at, mark.sdMm),
    }
  })
}

function weighed(
  drawn: readonly { readonly at: Point; readonly reached: ReadonlySet<string> }[],
  at: Point,
  sdMm: number,
): Map<string, number> {
  const sums = new Map<string, number>()
  let whole = 0
  for (const { at: place, reached } of drawn) {
    const squared = ((place.x - at.x) ** 2 + (place.y - at.y) ** 2) / sdMm ** 2
    if (squared > 9) continue
    const weight = Math.exp(-squared / 2)
    whole += weight
    for (const id of reached) sums.set(id, (sums.get(id) ?? 0) + weight)
  }
  return new Map([...sums].map(([id, sum]) => [id, sum / whole]))
}

export interface Unsteadiness {
  /** The most by which a change over a millimetre is off, over all regions. */
  readonly worstPerMm: number
  /** The most by which a probability is off. */
  readonly worst: number
  /** Steepest change of the sampled probabilities in a millimetre. */
  readonly steepestPerMm: number
}

export function unsteadinessOf(line: readonly LineStep[], stepMm: number): Unsteadiness {
  const perMm = Math.round(1 / stepMm)
  const ids = new Set(line.flatMap(({ summed, sampled }) => [...summed.keys(), ...sampled.keys()]))
  let [worstPerMm, worst, steepestPerMm] = [0, 0, 0]
  for (const id of ids) {
    for (const [i, step] of line.entries()) {
      const summed = step.summed.get(id) ?? 0
      const sampled = step.sampled.get(id) ?? 0
      worst = Math.max(worst, Math.abs(summed - sampled))
      const later = line[i + perMm]
      if (later === undefined) continue
      const sampledChange = (later.sampled.get(id) ?? 0) - sampled
      const summedChange = (later.summed.get(id) ?? 0) - summed
      worstPerMm = Math.max(worstPerMm, Math.abs(summedChange - sampledChange))
      steepestPerMm = Math.max(steepestPerMm, Math.abs(sampledChange))
    }
  }
  return { worstPerMm, worst, steepestPerMm }
}
