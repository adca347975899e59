/** What the plan is asked, and the check of it: every fault of the question at once. */
import { bad, type Fault, good, type Result, showValue, say } from '../base/index.ts'
import { type BoardModel, type PlacedPart, type Side, standsOnBoard } from '../board/index.ts'
import type { Exposure, HeatSetting } from '../heat/index.ts'
import type { Substance } from '../spill/index.ts'
import { resolveShopSettings, type ShopSettings, type ShopSettingsInput } from './settings.ts'

/** How far a part is over its floor life (J-STD-033); a part that is not named is taken to be within it. */
export type FloorLife = 'within' | 'over by at most 72 h' | 'over by more or unknown'

/** One pass on several parts under one nozzle, as the heat room solved it. */
export interface GroupExposure {
  readonly refs: readonly string[]
  readonly exposure: Exposure
}

export interface Nozzle {
  readonly name: string
  readonly shape: HeatSetting['nozzle']['shape']
  readonly sizeMm: number
}

/** Hours in the oven for a part; undefined where the table has no entry. */
export type BakeLookup = (part: PlacedPart, floorLife: Exclude<FloorLife, 'within'>) => number | undefined

export interface PlanInput {
  readonly model: BoardModel
  /** Refs of the parts to lift; their order does not matter. */
  readonly lift: readonly string[]
  /** By target ref: what one pass on it does to every other part. */
  readonly exposures: ReadonlyMap<string, Exposure>
  readonly groups?: readonly GroupExposure[]
  /** Refs of groups that were solved and can't be lifted together with this equipment; only named in a note. */
  readonly groupsThatFail?: readonly (readonly string[])[]
  /** What the hot-air station has; only used to say which groups were not solved. */
  readonly nozzles?: readonly Nozzle[]
  readonly settings?: ShopSettingsInput
  /** By ref: how often its joints have been molten, where that differs from the board file. */
  readonly heatCounts?: ReadonlyMap<string, number>
  readonly floorLife?: ReadonlyMap<string, FloorLife>
  /** Refs of parts that are bad themselves: a new one goes on in their place. */
  readonly replace?: ReadonlySet<string>
  readonly bakeHours?: BakeLookup
  /** That the card works once these parts were seen to, 0 … 1. */
  readonly successProbability: number
  readonly substances?: readonly Substance[]
  /** Those of the substances that may still lie on the board: cleaned off before the first heat. */
  readonly cleanFirst?: readonly Substance[]
  /** By ref: torn pads that have to be mended, where they were noted one by one; else one where the log says torn. */
  readonly tornBalls?: ReadonlyMap<string, number> | undefined
  /** Where a job stands that has begun; see `replan`. */
  readonly begun?: Begun
}

export interface Begun {
  readonly lifted: ReadonlySet<string>
  readonly refitted: ReadonlySet<string>
  /** Off the board and staying off. */
  readonly leftOff: ReadonlySet<string>
  readonly cleaned: ReadonlySet<string>
  readonly corroded: ReadonlySet<string>
  readonly wet: ReadonlySet<string>
  readonly metal: ReadonlySet<string>
  /** Refs, each as often as pads under it have to be mended. */
  readonly tornPads: readonly string[]
  readonly side: Side | undefined
  /** Bench work that was ticked off, as `action ref`. */
  readonly ticked: ReadonlySet<string>
}

/** Work that heats has begun; before that a card may still be washed, dried and made ready. */
export const hasHeated = (begun: Begun | undefined): boolean =>
  begun !== undefined && begun.lifted.size + begun.refitted.size + begun.leftOff.size > 0

export interface Target {
  readonly ref: string
  readonly part: PlacedPart
  readonly exposure: Exposure
}

export interface CheckedInput {
  readonly input: PlanInput
  readonly settings: ShopSettings
  /** In the order of their refs, so that the list's order cannot matter. */
  readonly targets: readonly Target[]
}

/**
 * Settings made whole, and the targets sorted by ref, each once. Refuses with all faults together: an empty lift
 * list, a ref or exposure that does not fit, a probability outside 0 to 1, a heat count that is no whole number from
 * 0 up.
 */
export function checkInput(input: PlanInput): Result<CheckedInput> {
  const settings = resolveShopSettings(input.settings)
  const faults: Fault[] = settings.ok ? [] : [...settings.faults]
  const { successProbability } = input
  if (!(successProbability >= 0 && successProbability <= 1))
    faults.push({
      path: '$.successProbability',
      found: showValue(successProbability),
      expected: say('a number from 0 to 1'),
    })
  if (input.lift.length === 0)
    faults.push({
      path: '$.lift',
      found: say('an empty list'),
      expected: say('the ref of at least one part'),
      todo: say('Put the parts that are to come off on the lift list.'),
    })
  const targets: Target[] = []
  const seen = new Set<string>()
  for (const [index, ref] of input.lift.entries()) {
    if (seen.has(ref)) continue
    seen.add(ref)
    const target = targetOf(input, ref, `$.lift[${index}]`)
    if (target.ok) targets.push(target.value)
    else faults.push(...target.faults)
  }
  for (const [ref, count] of input.heatCounts ?? [])
    if (!Number.isInteger(count) || count < 0)
      faults.push({ path: `$.heatCounts.${ref}`, found: showValue(count), expected: say('a whole number from 0 up') })
  if (faults.length > 0 || !settings.ok) return bad(...faults)
  targets.sort((a, b) => byRef(a.ref, b.ref))
  return good({ input, settings: settings.value, targets })
}

function targetOf(input: PlanInput, ref: string, path: string): Result<Target> {
  const part = input.model.partByRef.get(ref)
  if (part === undefined)
    return bad({
      path,
      found: showValue(ref),
      expected: say('a ref of the board {name}', { name: input.model.name }),
      todo: say('Look for a slip in the ref, or take it off the list.'),
    })
  const { box } = input.model
  const { at } = part.placement
  if (at.x < box.minX || at.x > box.maxX || at.y < box.minY || at.y > box.maxY)
    return bad({
      path,
      found: say('{ref} at ({x}, {y}) mm, off the board', { ref, x: at.x, y: at.y }),
      expected: say('a part that stands on the board'),
      todo: say('Correct its place in the board file.'),
    })
  if (!standsOnBoard(part))
    return bad({
      path,
      found: say('{ref}, which stands on {carriedBy}', { ref, carriedBy: part.description.carriedBy }),
      expected: say('a part with joints on the board'),
      todo: say('Lift {carriedBy} instead; {ref} comes off with it.', { carriedBy: part.description.carriedBy, ref }),
    })
  const exposure = input.exposures.get(ref)
  if (exposure === undefined)
    return bad({
      path: `$.exposures.${ref}`,
      found: say('nothing'),
      expected: say('what a pass on {ref} does to the other parts', { ref }),
      todo: say("Solve the heat of {ref} first; where no setting lifts it with this equipment, it can't be planned.", {
        ref,
      }),
    })
  return good({ ref, part, exposure })
}

const collator = new Intl.Collator('en', { numeric: true })
/** U2 before U10. */
export const byRef = (a: string, b: string): number => collator.compare(a, b)
