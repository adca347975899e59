/**
 * The core as one variable: sound, failed as a whole or in part (a side, a controller), or with a patch of bad joints of
 * any size under it.
 */
import { type Point, polygonContains } from '../../base/index.ts'
import { type BoardModel, type PlacedPart, type Region, standsOnBoard } from '../../board/index.ts'
import type { Assumptions } from '../assumptions.ts'
import { checksMet } from '../checks/check-scope.ts'
import type { ListedVariable, SharedState, SharedTouch } from '../network/cause.ts'
import { NEVER } from '../network/observations.ts'
import { refitDefect, uncuredBy } from '../remedies/figures.ts'
import type { CauseKind } from '../result.ts'
import { type CauseContext, lasting, laneTouches, versionsOf } from './context.ts'
import { compassWord, placeWithin } from './places.ts'

/** How many of its lanes a fault of the core as a whole spoils. */
export const WHOLE_DEGREES = ['core-few', 'core-whole', 'core-most'] as const
export type WholeDegree = (typeof WHOLE_DEGREES)[number]

/** A way in which part of the core can be bad: what it covers, and which share of its kind it has. */
export interface CoreForm {
  readonly kind: 'core' | 'core-patch'
  /** Its name, the same in each language; said by `placeSaid`. */
  readonly at: string
  readonly share: number
  /**
   * By index into the board's: regions of the core, and those of stacks on it, whose lanes end in its die without a ball; of
   * the core as a whole: how many lanes it spoils.
   */
  readonly regions: readonly number[] | WholeDegree
}

/**
 * Every way in which the core can be bad, with its share of its kind; shares of each kind sum to one where the board
 * gives patches. Sides and controllers that the board does not tell give their share to the core as a whole; no core,
 * no forms.
 */
export function coreForms(model: BoardModel, { core: shares, patch }: Assumptions): CoreForm[] {
  const { core } = model
  if (core === undefined) return []
  const own = model.regions.flatMap((region, index) =>
    region.part === core.ref && region.lanes.length > 0 ? [{ region, index }] : [],
  )
  const stacks = new Set(model.memories.flatMap((part) => (standsOnBoard(part) ? [] : [part.ref])))
  const within = model.regions.flatMap((region, index) =>
    stacks.has(region.part) && region.role === 'lane' && region.lanes.length > 0 ? [{ region, index }] : [],
  )
  const total = shares.whole + shares.side + shares.controller
  const shareOf = (share: number): number => (total > 0 ? share / total : 1 / 3)
  const signal = [...own.filter(({ region }) => region.role !== 'power'), ...within]
  const sides = sidesOf(core, signal)
  const controllers = controllersOf(model, core, signal)
  const whole =
    1 - (sides.length > 0 ? shareOf(shares.side) : 0) - (controllers.length > 0 ? shareOf(shares.controller) : 0)
  return [
    ...WHOLE_DEGREES.map((regions): CoreForm => {
      return { kind: 'core', at: core.ref, share: whole / WHOLE_DEGREES.length, regions }
    }),
    ...sides.map((side) => ({ ...side, share: shareOf(shares.side) / sides.length })),
    ...controllers.map((part) => ({ ...part, share: shareOf(shares.controller) / controllers.length })),
    ...patchesOf(core, own, patch),
  ]
}

interface Numbered {
  readonly region: Region
  readonly index: number
}
type Part = Omit<CoreForm, 'share'> & { readonly regions: readonly number[] }

/** The four quarters of its edge, as seen from its middle. */
function sidesOf(core: PlacedPart, regions: readonly Numbered[]): Part[] {
  const quarterOf = ({ region }: Numbered): number => {
    const { at, rotationDeg } = core.placement
    const angle = Math.atan2(region.centre.y - at.y, region.centre.x - at.x) - (rotationDeg * Math.PI) / 180
    return ((Math.round(angle / (Math.PI / 2)) % 4) + 4) % 4
  }
  return [0, 1, 2, 3].flatMap((quarter) => {
    const covered = regions.filter((each) => quarterOf(each) === quarter)
    if (covered.length === 0 || covered.length === regions.length) return []
    const middle = middleOf(covered)
    const at = `the ${compassWord(core.placement.at, middle)} side of ${core.ref}`
    return [{ kind: 'core', at, regions: covered.map(({ index }) => index) }]
  })
}

/** Each channel's controller by itself, and each with the one next to it around the core. */
function controllersOf(model: BoardModel, core: PlacedPart, regions: readonly Numbered[]): Part[] {
  const channels = model.channels.flatMap(({ id, lanes }) => {
    const covered = regions.filter(({ region }) => region.lanes.some((lane) => lanes.includes(lane)))
    if (covered.length === 0) return []
    const middle = middleOf(covered)
    const { at } = core.placement
    return [{ id, covered, angle: Math.atan2(middle.y - at.y, middle.x - at.x) }]
  })
  if (channels.length < 2) return []
  const around = channels.toSorted((a, b) => a.angle - b.angle)
  const single = around.map(({ id, covered }): Part => {
    return { kind: 'core', at: `the controller of channel ${id} in ${core.ref}`, regions: indices(covered) }
  })
  if (around.length < 3) return single
  const pairs = around.map(({ id, covered }, i): Part => {
    const next = around[(i + 1) % around.length]
    const at = `the controllers of channels ${id} and ${next?.id ?? ''} in ${core.ref}`
    return { kind: 'core', at, regions: [...new Set([...indices(covered), ...indices(next?.covered ?? [])])] }
  })
  return [...single, ...pairs]
}

const indices = (list: readonly Numbered[]): number[] => list.map(({ index }) => index)

function middleOf(list: readonly Numbered[]): Point {
  const sum = list.reduce((acc, { region }) => ({ x: acc.x + region.centre.x, y: acc.y + region.centre.y }), {
    x: 0,
    y: 0,
  })
  return { x: sum.x / list.length, y: sum.y / list.length }
}

/**
 * Discs whose centres lie on a grid over the core's body, each radius as likely as the others. A disc covers a region
 * whose centre of area it holds. Discs that cover nothing are no hypothesis; equal ones under the same word merge.
 */
function patchesOf(
  core: PlacedPart,
  regions: readonly Numbered[],
  { radiiMm, stepMm }: Assumptions['patch'],
): CoreForm[] {
  const merged = new Map<string, { count: number; at: string; regions: readonly number[] }>()
  let total = 0
  for (const centre of centresOver(core.box, stepMm)) {
    if (!polygonContains(core.outline, centre)) continue
    const at = placeWithin(core, centre)
    for (const radiusMm of radiiMm) {
      const covered = indices(regions.filter(({ region }) => isNear(region.centre, centre, radiusMm)))
      if (covered.length === 0) continue
      total++
      const key = `${at}:${covered.join()}`
      const known = merged.get(key)
      if (known === undefined) merged.set(key, { count: 1, at, regions: covered })
      else known.count++
    }
  }
  return [...merged.values()].map(({ count, at, regions: covered }) => {
    return { kind: 'core-patch', at, share: count / total, regions: covered }
  })
}

const isNear = (a: Point, b: Point, mm: number): boolean => Math.hypot(a.x - b.x, a.y - b.y) <= mm

function* centresOver(
  box: { minX: number; minY: number; maxX: number; maxY: number },
  stepMm: number,
): Generator<Point> {
  for (let y = box.minY + stepMm / 2; y < box.maxY; y += stepMm) {
    for (let x = box.minX + stepMm / 2; x < box.maxX; x += stepMm) yield { x, y }
  }
}

/**
 * One variable, since a core is bad in one way at a time, or none without a core. Each form comes in versions: one
 * for each work that may have cured it.
 */
export function coreVariable(context: CauseContext, forms: readonly CoreForm[]): ListedVariable[] {
  const { model, assumptions } = context
  const { core } = model
  if (core === undefined || forms.length === 0) return []
  const has = (kind: CauseKind): boolean => forms.some((form) => form.kind === kind)
  const { prior } = assumptions
  const priorOf = { core: has('core') ? prior.core : 0, 'core-patch': has('core-patch') ? prior['core-patch'] : 0 }
  const scale = Math.max(1, priorOf.core + priorOf['core-patch'])
  const { observed } = context
  const touches = touchesByForm(context, core.ref)
  const uncured = uncuredBy(assumptions)
  const versions = {
    core: versionsOf(observed.replacedBefore(core.ref), uncured.die),
    'core-patch': versionsOf(observed.refittedBefore(core.ref), uncured.joints),
  }
  const states = forms.flatMap((form) =>
    versions[form.kind].map(
      ({ share, rightFrom }): SharedState => ({
        weight: (priorOf[form.kind] * form.share * share) / scale,
        at: { kind: form.kind, at: form.at, refs: [core.ref] },
        touches: touches(form).map((touch) => (touch.rightFrom === rightFrom ? touch : { ...touch, rightFrom })),
        lifts: rightFrom === NEVER ? context.partIndex(core.ref) : -1,
      }),
    ),
  )
  const original = {
    kind: 'core',
    isOpen: false,
    absent: 1 - (priorOf.core + priorOf['core-patch']) / scale,
    states,
  } as const
  return [original, ...refitVariables(context, core.ref, forms, touches)]
}

/** What each refit of the core may have brought in: bridges or open joints in a patch of any size, as patches are. */
function refitVariables(
  context: CauseContext,
  ref: string,
  forms: readonly CoreForm[],
  touches: (form: CoreForm) => readonly SharedTouch[],
): ListedVariable[] {
  const refitted = context.observed.refittedBefore(ref)
  const places = forms.filter(({ kind }) => kind === 'core-patch')
  const whole = places.reduce((sum, { share }) => sum + share, 0)
  const prior = whole > 0 ? refitDefect('core') : 0
  return refitted.map((wrongFrom, at) => {
    const rightFrom = refitted[at + 1] ?? NEVER
    const lifts = rightFrom === NEVER ? context.partIndex(ref) : -1
    const states = places.map(
      (form): SharedState => ({
        weight: (prior * form.share) / whole,
        at: { kind: 'core-patch', at: `${ref} as refitted`, refs: [ref] },
        touches: touches(form).map((touch): SharedTouch => ({ ...touch, rightFrom, wrongFrom })),
        lifts,
      }),
    )
    return { kind: 'refit', isOpen: false, absent: 1 - prior, states }
  })
}

/** As though nothing put it right. A form spoils lanes region by region; a check meets it once, however many regions it covers. */
function touchesByForm(context: CauseContext, ref: string): (form: CoreForm) => SharedTouch[] {
  const { model, assumptions, observed } = context
  const { fails } = assumptions
  const allLanes = model.lanes.map(({ id }) => id)
  const met = {
    core: checksMet(observed.checks, { kind: 'core', parts: [ref], lanes: allLanes }),
    'core-patch': checksMet(observed.checks, { kind: 'core-patch', parts: [ref], lanes: allLanes }),
  }
  const spoilt = { core: new Map<number, SharedTouch[]>(), 'core-patch': new Map<number, SharedTouch[]>() }
  const spoiltAt = (index: number, kind: CoreForm['kind']): SharedTouch[] => {
    const known = spoilt[kind].get(index)
    if (known !== undefined) return known
    const { role, lanes } = model.regions[index] ?? { role: undefined, lanes: [] }
    const q = role === 'power' ? fails['power-region'] : fails[kind]
    const made = laneTouches(context, lanes, q).map(lasting)
    spoilt[kind].set(index, made)
    return made
  }
  return ({ kind, regions }) => {
    if (typeof regions === 'string') {
      return [...laneTouches(context, allLanes, fails[regions]), ...met[kind].map(({ touch }) => touch)].map(lasting)
    }
    const lanes =
      met[kind].length === 0 ? NO_LANES : new Set(regions.flatMap((index) => model.regions[index]?.lanes ?? []))
    const found = met[kind].filter(({ at }) => at === ref || lanes.has(at)).map(({ touch }) => lasting(touch))
    return [...regions.flatMap((index) => spoiltAt(index, kind)), ...found]
  }
}

const NO_LANES: ReadonlySet<string> = new Set()
