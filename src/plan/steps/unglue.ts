/** What holds a part beside its solder, and has to be broken before it is lifted: glue at its corners, edge bond, underfill. */
import { joined, say } from '../../base/index.ts'
import type { Part, PlacedPart } from '../../board/index.ts'
import { bondMinutes, isBonded } from '../../suspects/index.ts'
import { byRef, type CheckedInput } from '../input.ts'
import type { Pass } from '../order/problem.ts'
import type { ShopSettings } from '../settings.ts'
import type { Draft } from './step-draft.ts'

export type Bonding = Part['bonding']

const HOLDS: Readonly<Record<Exclude<Bonding, 'none'>, string>> = {
  corner: say('glued at the corners'),
  edge: say('bonded all around'),
  underfill: say('underfilled'),
}

const stillGlued = ({ targets, input }: CheckedInput, { members, action }: Pass): PlacedPart[] =>
  action !== 'lift'
    ? []
    : members
        .flatMap((member) => targets[member]?.part ?? [])
        .filter((part) => isBonded(part) && input.begun?.ticked.has(`unglue ${part.ref}`) !== true)
        .toSorted((a, b) => byRef(a.ref, b.ref))

/** Of the minutes of a pass, those that its glue takes in a step of its own. */
export const gluedMinutes = (checked: CheckedInput, pass: Pass): number =>
  bondMinutes(stillGlued(checked, pass), checked.settings)

/** The step before a lift of glued parts; none where nothing holds them or the glue is broken. */
export function freed(checked: CheckedInput, pass: Pass): Draft[] {
  const parts = stillGlued(checked, pass)
  if (parts.length === 0) return []
  const { rules } = checked.settings
  const underfilled = parts.some(({ description }) => description.bonding === 'underfill')
  const how = say(
    'Warm the board to about {glueSoftC} °C, under every joint’s melting point, and pick the soft glue away from the rim in small bites, flat to the mask.',
    { glueSoftC: rules.glueSoftC },
  )
  const rest = underfilled
    ? say(
        ' What lies under the part stays: it parts only at the lift, by a thin blade from a corner once every joint is liquid.',
      )
    : say(' No lift before nothing bridges part and board.')
  return [
    {
      action: 'unglue',
      refs: parts.map(({ ref }) => ref),
      minutes: bondMinutes(parts, checked.settings),
      why: say('{held}: pulled, it tears pads out. {how}{rest}', { held: heldWords(parts), how, rest }),
    },
  ]
}

/** `U3 is underfilled, U4 is glued at the corners`. */
const heldWords = (parts: readonly PlacedPart[]): string =>
  joined(
    parts.flatMap(({ ref, description: { bonding } }) =>
      bonding === 'none' ? [] : [say('{ref} is {held}', { ref, held: HOLDS[bonding] })],
    ),
  )

/** That a pad comes off with the part at its lift because of what holds it, 0 … 1. */
export function tearChance({ description }: PlacedPart, { rules }: Pick<ShopSettings, 'rules'>): number {
  const chance = { none: 0, corner: rules.tearsCorner, edge: rules.tearsEdge, underfill: rules.tearsUnderfill }
  return chance[description.bonding]
}

/** Parts that are to be lifted and that something beside solder holds. */
export const gluedToLift = ({ targets, input: { begun } }: CheckedInput): PlacedPart[] =>
  targets.flatMap(({ ref, part }) =>
    isBonded(part) && begun?.lifted.has(ref) !== true && begun?.refitted.has(ref) !== true ? [part] : [],
  )

/**
 * Parts of a lift whose glue was not broken by then, by the ticks.
 * @param ticks what was ticked off so far
 */
export const gluedYet = (
  parts: readonly PlacedPart[],
  ticks: readonly { readonly action: string; readonly refs: readonly string[]; readonly outcome: string }[],
): string[] => {
  const broken = new Set(
    ticks.flatMap(({ action, refs, outcome }) => (action === 'unglue' && outcome === 'done' ? refs : [])),
  )
  return parts.flatMap((part) => (isBonded(part) && !broken.has(part.ref) ? [part.ref] : []))
}
