/** From the checked question to the ordering question in numbers: passes, harm, what may be reused, what must be off. */
import type { PlacedPart } from '../../board/index.ts'
import type { Exposure, RefitHeat } from '../../heat/index.ts'
import { bondMinutes, handlingMinutes, minutesToMoney } from '../../suspects/index.ts'
import { replaceMoney, reuseMoney } from '../bench-work.ts'
import { harmChanceOf, harmOf, heatCountOf, priceAtRisk } from './harm.ts'
import type { CheckedInput } from '../input.ts'
import { LIFTED, MOST_SPARE_MELTS, ON, type OrderProblem, type Pass, REFITTED } from './problem.ts'

/** The heat of one pass, be it a lift or a refit. */
export type PassHeat = Pick<Exposure, 'setting' | 'neighbours' | 'liftFromS' | 'joints'> & Pick<RefitHeat, 'short'>

/** What else is known of a pass, for its step. */
export interface PassDetail {
  /** Of this very pass: a refit has a window of its own. */
  readonly heat: PassHeat
  readonly minutes: number
  /** Flux, and tape or clips for the shields. */
  readonly materials: number
  /** Harm to parts that are not on the list, in money, and the chance that none of them is spoiled. */
  readonly harmElsewhere: number
  readonly soundElsewhere: number
}

export interface Built {
  readonly problem: OrderProblem
  readonly details: ReadonlyMap<Pass, PassDetail>
}

/** Own lift, reball and refit: melts of a part that is reused. */
const OWN_MELTS = 3

/**
 * Numbers of the ordering question, costs in money; parts are numbered as `checked.targets`. Each part gets its own
 * lift and refit, each group with two or more known members a common one. A group that names a part off the list is
 * passed over.
 */
export function buildProblem(checked: CheckedInput): Built {
  const { input, settings, targets } = checked
  const details = new Map<Pass, PassDetail>()
  const indexByRef = new Map(targets.map(({ ref }, index) => [ref, index]))
  const spare = targets.map(({ part }) => spareMelts(checked, part))
  const addPasses = (members: readonly number[], exposure: Exposure): void => {
    for (const action of ['lift', 'refit'] as const) {
      const [pass, detail] = passOf(checked, indexByRef, spare, members, exposure, action)
      details.set(pass, detail)
    }
  }
  for (const [index, { exposure }] of targets.entries()) addPasses([index], exposure)
  for (const { refs, exposure } of input.groups ?? []) {
    const members = refs.map((ref) => indexByRef.get(ref) ?? -1).toSorted((a, b) => a - b)
    if (members.length > 1 && !members.includes(-1)) addPasses(members, exposure)
  }
  const side = input.begun?.side
  const problem: OrderProblem = {
    partCount: targets.length,
    passes: [...details.keys()],
    offBeforeRefit: targets.map(({ part }, i) =>
      targets.flatMap((other, j) =>
        i !== j && solventReaches(part, other.part, settings.rules.cleanReachMm) ? [j] : [],
      ),
    ),
    reuseCost: Float64Array.from(targets, ({ part }) => reuseMoney(part, settings)),
    replaceCost: Float64Array.from(targets, ({ part }) => replaceMoney(part, settings)),
    spareMelts: Int8Array.from(spare),
    flipCost: minutesToMoney(settings.minutes.turnOver, settings),
    start: { states: Uint8Array.from(targets, ({ ref }) => startState(checked, ref)), side: sideNumber(side) },
    rule: 'free',
    notFirst: [],
  }
  return { problem, details }
}

const sideNumber = (side: 'top' | 'bottom' | undefined): 0 | 1 | -1 => {
  if (side === undefined) return -1
  return side === 'top' ? 0 : 1
}

function startState({ input }: CheckedInput, ref: string): number {
  if (input.begun?.refitted.has(ref) === true) return REFITTED
  return input.begun?.lifted.has(ref) === true ? LIFTED : ON
}

/** Of its own melts, those that its heat count does not hold yet: lift, balls and refit of a part that is still on. */
function meltsToCome(state: number): number {
  if (state === REFITTED) return 0
  return state === LIFTED ? OWN_MELTS - 1 : OWN_MELTS
}

/** Melts as a neighbour that leave the part below its limit when its own lift begins; −1 where it is replaced anyway: bad itself, or at the limit now. */
function spareMelts(checked: CheckedInput, part: PlacedPart): number {
  if (checked.input.replace?.has(part.ref) === true) return -1
  const count = heatCountOf(part, checked.input.heatCounts, checked.settings)
  const lifted = checked.input.begun?.lifted.has(part.ref) === true ? 1 : 0
  return Math.max(-1, Math.min(MOST_SPARE_MELTS, checked.settings.heat.heatLimit - 1 - (count - lifted)))
}

function passOf(
  checked: CheckedInput,
  indexByRef: ReadonlyMap<string, number>,
  spare: readonly number[],
  members: readonly number[],
  exposure: Exposure,
  action: Pass['action'],
): [Pass, PassDetail] {
  const { input, settings, targets } = checked
  const heat = action === 'refit' ? (exposure.refit ?? exposure) : exposure
  const parts = members.flatMap((member) => targets[member]?.part ?? [])
  const { side, shields } = heat.setting
  const harmOn = new Float64Array(targets.length)
  const harmRefitted = new Float64Array(targets.length)
  const melts: number[] = []
  let harmElsewhere = 0
  let soundElsewhere = 1
  for (const beside of heat.neighbours) {
    const part = input.model.partByRef.get(beside.ref)
    const index = indexByRef.get(beside.ref)
    if (part === undefined || input.begun?.leftOff.has(beside.ref) === true) continue
    const count = heatCountOf(part, input.heatCounts, settings)
    if (index === undefined) {
      const chance = harmChanceOf({ part, heat: beside, side, heatCount: count }, settings)
      harmElsewhere += chance * priceAtRisk(part, settings)
      soundElsewhere *= 1 - chance
      continue
    }
    if (members.includes(index)) continue
    const replaced = (spare[index] ?? -1) < 0
    harmOn[index] = replaced ? 0 : harmOf({ part, heat: beside, side, heatCount: count }, settings)
    const state = startState(checked, beside.ref)
    const refitted = replaced && state !== REFITTED ? 1 : count + meltsToCome(state)
    harmRefitted[index] = harmOf({ part, heat: beside, side, heatCount: refitted }, settings)
    if (beside.melts) melts.push(index)
  }
  const glued = parts.filter(({ ref }) => input.begun?.ticked.has(`unglue ${ref}`) !== true)
  const bond = action === 'lift' ? bondMinutes(glued, settings) : 0
  const minutes = heat.minutes + handlingMinutes(parts, settings) + bond
  const { fluxPerPass, tapePerShield } = settings.materials
  const materials = fluxPerPass * parts.length + tapePerShield * shields.length
  const base = minutesToMoney(minutes, settings) + materials + harmElsewhere
  const pass = { action, members, side: side === 'top' ? 0 : 1, base, harmOn, harmRefitted, melts } as const
  return [pass, { heat, minutes, materials, harmElsewhere, soundElsewhere }]
}

/** Bodies on the same side with less than the reach between their bounding boxes. */
function solventReaches(a: PlacedPart, b: PlacedPart, reachMm: number): boolean {
  return a.side === b.side && gapMm(a, b) < reachMm
}

/** Gap between the bounding boxes of two bodies, mm; 0 where they overlap. */
export function gapMm(a: PlacedPart, b: PlacedPart): number {
  const dx = Math.max(0, a.box.minX - b.box.maxX, b.box.minX - a.box.maxX)
  const dy = Math.max(0, a.box.minY - b.box.maxY, b.box.minY - a.box.maxY)
  return Math.hypot(dx, dy)
}
