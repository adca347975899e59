/** What must lie on the table: balls by count and diameter, stencil, alloy, flux, solvent, braid, tape, what parts bonds. */
import { joined, say } from '../../base/index.ts'
import { partKinds, type PlacedPart, stacksOn } from '../../board/index.ts'
import { alloyWords } from './alloy-words.ts'
import { cleaningMaterials } from './cleaning.ts'
import { ballSetOf, isBonded, isReballed, priceOf } from '../../suspects/index.ts'
import { byRef, type CheckedInput, hasHeated, type Target } from '../input.ts'
import type { Material } from '../result.ts'
import type { Walk } from '../order/walk.ts'

/**
 * What the rest of the plan uses up, with its cost in money. Work that was begun is not counted again. Lines that would
 * come to nothing are left out.
 */
export function materialsOf(checked: CheckedInput, walk: Walk): Material[] {
  const { settings, targets, input } = checked
  const { materials } = settings
  const toDo = targets.filter(({ ref }) => input.begun?.refitted.has(ref) !== true)
  const fresh = targets.filter((_, index) => walk.replaced.has(index))
  const reused = toDo.filter((target) => !fresh.includes(target))
  const sites = toDo.filter(({ ref }) => input.begun?.cleaned.has(ref) !== true).length
  const heated = walk.passes.reduce((sum, { pass }) => sum + pass.members.length, 0)
  return [
    ...ballLines(reused, materials.ballsPerThousand),
    ...pasteLines([...reused, ...fresh.filter(({ part }) => !isReballed(part))], materials.pastePerPart),
    ...newPartLines(checked, fresh),
    ...fluxLines(heated, materials.fluxPerPass),
    ...washLines(input),
    ...siteLines(sites, materials),
    ...shieldLines(checked, walk),
    ...bondLines(checked, walk),
  ]
}

function fluxLines(heated: number, each: number): Material[] {
  if (heated === 0) return []
  return [
    line(
      say('gel flux'),
      say('{heated, plural, one {# pass} other {# passes}}', { heated }),
      say('Every lift and refit needs flux under the part.'),
      heated * each,
    ),
  ]
}

function siteLines(sites: number, { wickPerSite, solventPerSite }: CheckedInput['settings']['materials']): Material[] {
  if (sites === 0) return []
  const amount = say('for {sites, plural, one {# site} other {# sites}}', { sites })
  return [
    line(say('desoldering braid'), amount, say('Old solder comes off the pads before the refit.'), sites * wickPerSite),
    line(
      say('solvent and lint-free cloth'),
      amount,
      say('Flux and residue come off the site and from under the rim.'),
      sites * solventPerSite,
    ),
  ]
}

/** What the first cleaning takes, by the substances; nothing once work that heats has begun. */
const washLines = ({ cleanFirst, begun }: CheckedInput['input']): Material[] =>
  cleanFirst === undefined || hasHeated(begun) ? [] : cleaningMaterials(cleanFirst)

const line = (what: string, amount: string, why: string, cost: number): Material => ({ what, amount, why, cost })

function ballLines(reused: readonly Target[], perThousand: number): Material[] {
  const groups = new Map<
    string,
    { refs: string[]; count: number; pitchMm: number; diameterMm: number; alloy: string }
  >()
  for (const { ref, part } of reused) {
    const balls = ballSetOf(part)
    if (balls === undefined) continue
    const alloy = alloyWords(part)
    const key = `${balls.diameterMm} ${balls.pitchMm} ${alloy}`
    const group = groups.get(key) ?? { refs: [], count: 0, pitchMm: balls.pitchMm, diameterMm: balls.diameterMm, alloy }
    group.refs.push(ref)
    group.count += balls.count
    groups.set(key, group)
  }
  return [...groups.values()].flatMap(({ refs, count, pitchMm, diameterMm, alloy }) => [
    line(
      say('solder balls {diameterMm} mm, {alloy}', { diameterMm, alloy }),
      `${count}`,
      say('For {refs}, by the ball grid of the package.', { refs: joined(refs) }),
      (count * perThousand) / 1000,
    ),
    line(
      say('stencil, pitch {pitchMm} mm, for {diameterMm} mm balls', { pitchMm, diameterMm }),
      '1',
      say('To set the balls of {refs}; it is used again, so no cost is counted.', { refs: joined(refs) }),
      0,
    ),
  ])
}

function pasteLines(reused: readonly Target[], each: number): Material[] {
  const without = reused.filter(({ part }) => ballSetOf(part) === undefined)
  if (without.length === 0) return []
  const refs = without.map(({ ref }) => ref)
  const alloys = [...new Set(without.map(({ part }) => alloyWords(part)))]
  return [
    line(
      say('solder paste, {alloys}', { alloys: joined(alloys) }),
      say('for {length, plural, one {# part} other {# parts}}', { length: refs.length }),
      say('For {refs}, which {length, plural, one {has} other {have}} no known ball grid.', {
        refs: joined(refs),
        length: refs.length,
      }),
      each * refs.length,
    ),
  ]
}

const whatIs = ({ description, kind }: PlacedPart): string =>
  description.value ?? description.package ?? (kind === 'memory' ? say('memory') : partKinds[kind].words[0])

const newPartLines = ({ input, settings }: CheckedInput, fresh: readonly Target[]): Material[] =>
  fresh.map(({ ref, part }) => ({
    ...line(
      newPart({ ref, part }, stacksOn(input.model, ref)),
      '1',
      input.replace?.has(ref) === true
        ? mayBeBad(ref, part, stacksOn(input.model, ref))
        : say('{ref} is at its heat limit and is not used again; {alloy} joints.', { ref, alloy: alloyWords(part) }),
      priceOf(part, settings),
    ),
    insteadOf: ref,
  }))

const mayBeBad = (ref: string, part: PlacedPart, stacks: readonly PlacedPart[]): string =>
  stacks.length > 0
    ? say('{ref} or a stack on it may be bad; {alloy} joints.', { ref, alloy: alloyWords(part) })
    : say('{ref} may be bad itself; {alloy} joints.', { ref, alloy: alloyWords(part) })

function newPart({ ref, part }: Pick<Target, 'ref' | 'part'>, stacks: readonly PlacedPart[]): string {
  const what = whatIs(part)
  if (stacks.length > 0)
    return say('new part for {ref}: {what}, with balls and with {stacks} on it', {
      ref,
      what,
      stacks: joined(stacks.map((stack) => stack.ref)),
    })
  return ballSetOf(part) === undefined
    ? say('new part for {ref}: {what}', { ref, what })
    : say('new part for {ref}: {what}, with balls', { ref, what })
}

function shieldLines({ settings }: CheckedInput, { passes }: Walk): Material[] {
  const refs = passes.flatMap(({ detail }) => detail.heat.setting.shields.map(({ ref }) => ref))
  if (refs.length === 0) return []
  const names = joined([...new Set(refs)].toSorted(byRef))
  const cost = refs.length * settings.materials.tapePerShield
  return [
    line(
      say('heat-proof tape or clip-on heat sinks'),
      say('{count, plural, one {# cover} other {# covers}}', { count: refs.length }),
      say('For {names}, at each pass nearby.', { names }),
      cost,
    ),
  ]
}

function bondLines({ targets, settings }: CheckedInput, { passes }: Walk): Material[] {
  const lifted = passes.flatMap(({ pass }) => (pass.action === 'lift' ? pass.members : []))
  const bonded = targets.filter(({ part }, index) => isBonded(part) && lifted.includes(index))
  if (bonded.length === 0) return []
  const refs = bonded.map(({ ref }) => ref)
  return [
    line(
      say('bond softener and thin blades'),
      say('for {length, plural, one {# part} other {# parts}}', { length: refs.length }),
      say('{refs} {count, plural, one {is} other {are}} glued to the board.', {
        refs: joined(refs),
        count: refs.length,
      }),
      settings.materials.bondRemoverPerPart * refs.length,
    ),
  ]
}
