/** What owner and bench say about accidents: spill marks with errors of their own, slips that were seen, or nothing. */
import { type Point, polygonContains, type Random } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { type SlipMark, type SpillMark, spillMarkSchema } from '../../spill/index.ts'
import { between, chance, logNormal, pick } from './draw.ts'
import { drawSlip } from './power-accidents.ts'
import type { Mixture } from './mixture.ts'
import type { Observations, TrueCause, TrueSpill } from './types.ts'

type Account = Pick<Observations, 'told' | 'spills' | 'slips'>

export interface Teller {
  readonly model: BoardModel
  readonly mixture: Mixture
  readonly random: Random
}

/**
 * Draws what is told from what really happened: reports may be missing, of things that never were, or beside the
 * place. Draws in a fixed order from the teller's random numbers.
 */
export function accountOf(teller: Teller, causes: readonly TrueCause[]): Account {
  const { mixture, random } = teller
  const { figures } = mixture
  const spills: SpillMark[] = []
  const slips: SlipMark[] = []
  for (const { spill, slip } of causes) {
    if (spill !== undefined && chance(random, figures.spillReported))
      spills.push(spillMark(teller, spill, spills.length))
    if (slip !== undefined && chance(random, figures.slipSeen)) slips.push(slipMark(teller, slip, slips.length))
  }
  const spilt = causes.some(({ spill }) => spill !== undefined)
  if (!spilt && chance(random, figures.falseReport)) spills.push(falseSpill(teller))
  if (chance(random, figures.harmlessSlip)) slips.push(slipMark(teller, drawSlip(teller.model, random), slips.length))
  return { told: toldOf(teller, causes, spills.length + slips.length > 0), spills, slips }
}

function toldOf({ mixture, random }: Teller, causes: readonly TrueCause[], reported: boolean): Account['told'] {
  if (reported) return 'accident'
  const happened = causes.some(({ spill, slip }) => spill !== undefined || slip !== undefined)
  if (happened) return chance(random, mixture.figures.silentOfUnreported) ? 'unknown' : 'no-accident'
  return chance(random, mixture.figures.saysNoAccident) ? 'no-accident' : 'unknown'
}

function spillMark(teller: Teller, spill: TrueSpill, index: number): SpillMark {
  const { random, model, mixture } = teller
  const sdMm = pick(random, [2, 3, 4, 6, 8]) ?? 4
  const at = near(model, spill.at, sdMm * between(random, 0.7, 1.3), random)
  const amount =
    spill.smear === undefined
      ? { volumeMl: Math.min(50, spill.volumeMl * logNormal(random, 1, 0.5)) }
      : { smearCm2: Math.min(500, spill.smear.areaCm2 * logNormal(random, 1, 0.5)) }
  const downDeg = toldDown(teller, spill, mixture)
  return spillMarkSchema.parse({
    kind: 'spill',
    id: `spill-${index + 1}`,
    side: spill.side,
    at,
    sdMm,
    substance: spill.substance,
    amount,
    amountSdLog: 0.5,
    ...toldPressing(teller, spill),
    ...(downDeg === undefined ? {} : { downDeg }),
  })
}

/** Whether a cooler pressed it is known of about two in three; how far it was pushed, of fewer. */
function toldPressing({ random }: Teller, { smear }: TrueSpill): Pick<Partial<SpillMark>, 'pressed' | 'pushMm'> {
  if (smear === undefined || chance(random, 0.35)) return {}
  const pressed = chance(random, 0.93) ? smear.pushMm > 0 : smear.pushMm === 0
  if (!pressed) return { pressed: 'no' }
  const pushMm = Math.min(50, Math.max(0.5, smear.pushMm * logNormal(random, 1, 0.35)))
  return chance(random, 0.5) ? { pressed: 'yes', pushMm: Math.round(pushMm * 10) / 10 } : { pressed: 'yes' }
}

function toldDown({ random }: Teller, { downDeg }: TrueSpill, { figures }: Mixture): number | undefined {
  if (chance(random, figures.uprightTold)) return downDeg
  return chance(random, 0.5) ? undefined : random.whole(4) * 90
}

function slipMark({ random }: Teller, slip: NonNullable<TrueCause['slip']>, index: number): SlipMark {
  const { x, y } = slip.at
  return {
    kind: 'slip',
    id: `slip-${index + 1}`,
    side: slip.side,
    at: { x: x + 0.5 * random.normal(), y: y + 0.5 * random.normal() },
    radiusMm: slip.radiusMm * logNormal(random, 1, 0.2),
  }
}

/** Dirt or an old harmless drop that is taken for a spill. */
function falseSpill({ model, random }: Teller): SpillMark {
  const middle = model.core?.placement.at ?? { x: model.box.minX, y: model.box.minY }
  return spillMarkSchema.parse({
    kind: 'spill',
    id: 'spill-1',
    side: 'top',
    at: near(model, middle, 25, random),
    sdMm: 4,
    substance: pick(random, ['coolant-eg', 'water', 'flux-fresh']) ?? 'water',
    amount: { volumeMl: logNormal(random, 0.15, 0.7) },
    amountSdLog: 0.5,
  })
}

/** A point scattered about another, on the board. */
function near(model: BoardModel, at: Point, sdMm: number, random: Random): Point {
  for (let attempt = 0; attempt < 20; attempt++) {
    const drawn = { x: at.x + sdMm * random.normal(), y: at.y + sdMm * random.normal() }
    const inCutout = model.cutouts.some((cutout) => polygonContains(cutout, drawn))
    const inDrill = model.drills.some((hole) => Math.hypot(hole.at.x - drawn.x, hole.at.y - drawn.y) <= hole.diameterMm)
    if (polygonContains(model.outline, drawn) && !inCutout && !inDrill) return drawn
  }
  return at
}
