/** Cold readings of rails and stages: what the line really has, through a meter with noise and hands that slip. */
import type { Random } from '../../base/index.ts'
import type { BoardModel, Rail } from '../../board/index.ts'
import type { Measurement } from '../../measure/index.ts'
import { chance, lasting, logNormal } from './draw.ts'
import type { Mixture } from './mixture.ts'
import type { Damage } from './types.ts'

const METER_SD = 0.015
const LEAD_OHM = 0.1
/** A stage is read at a pin of its own: its inductor would read the rail, as that of every other stage does. */
const STAGE_SD = 0.03
/** What holds such a pin, in ohms: the same at every stage of a card. */
const LEAST_PIN_OHM = 5000
const MOST_PIN_OHM = 50_000

/** What a line has to ground, on this card, with these damages still there. */
export function ohmsOf(model: BoardModel, seed: number, damages: readonly Damage[], line: Measurement['line']): number {
  if (line.kind === 'stage') return pulledDown(soundPinOhms(model, seed, line.name), damages, 'stage', line.name)
  const rail = model.rails.find(({ name }) => name === line.name)
  return pulledDown(soundOhms(rail, seed), damages, 'rail', line.name)
}

function soundPinOhms(model: BoardModel, seed: number, ref: string): number {
  const rail = model.rails.find(({ stages }) => stages.includes(ref))
  const share = lasting(seed, `pins ${rail?.name ?? ref}`)
  return LEAST_PIN_OHM ** (1 - share) * MOST_PIN_OHM ** share
}

function soundOhms(rail: Rail | undefined, seed: number): number {
  const low = rail?.ohmsToGround?.lowOhm ?? 20
  const high = rail?.ohmsToGround?.highOhm ?? 200
  const share = 0.12 + 0.76 * lasting(seed, `ohms ${rail?.name ?? ''}`)
  return Math.max(low, 0.01) ** (1 - share) * high ** share
}

/** The worse it is the lower: from two thirds of the least sound value to a dead short. */
function pulledDown(ohms: number, damages: readonly Damage[], kind: 'rail' | 'stage', name: string): number {
  let pulled = ohms
  for (const { lines } of damages) {
    for (const line of lines)
      if (line.kind === kind && line.name === name)
        pulled = Math.min(pulled, ohms * 0.35 * (1 - line.severity) ** 2 + 0.02)
  }
  return pulled
}

export interface Bench {
  readonly model: BoardModel
  readonly seed: number
  readonly mixture: Mixture
  readonly random: Random
}

/**
 * A cold reading in ohms with the leads' own, the meter's spread, and now and then a slip of the hand. A stage is
 * read at its PWM pin.
 */
export function readingOf(
  { model, seed, mixture, random }: Bench,
  damages: readonly Damage[],
  line: Measurement['line'],
) {
  const ohms = ohmsOf(model, seed, damages, line)
  const spread = line.kind === 'stage' ? STAGE_SD : METER_SD
  const wrong = chance(random, mixture.figures.readingWrong)
  const seen = (ohms + LEAD_OHM * random.next()) * Math.exp(spread * random.normal())
  const value = Number((wrong ? seen * logNormal(random, 1, 2) : seen).toPrecision(4))
  const at = line.kind === 'stage' ? ({ ...line, point: 'pwm' } as const) : line
  return { line: at, quantity: 'ohms', phase: 'before', reading: { kind: 'value', value }, typed: `${value}` } as const
}

/** All that was measured before the question is put. */
export function drawReadings(bench: Bench, damages: readonly Damage[]): Measurement[] {
  const { model, mixture, random } = bench
  const { figures } = mixture
  const rails = chance(random, figures.railsMeasured) ? model.rails.map(({ name }) => name) : []
  const stages = chance(random, figures.stagesMeasured) ? [...new Set(model.rails.flatMap((rail) => rail.stages))] : []
  const lines = [
    ...rails.map((name) => ({ kind: 'rail', name }) as const),
    ...stages.map((name) => ({ kind: 'stage', name }) as const),
  ]
  return lines.filter(() => chance(random, figures.lineMeasured)).map((line) => readingOf(bench, damages, line))
}
