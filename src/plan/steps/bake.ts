/** Which parts must be baked before any heat, for how long, and why (J-STD-033: floor life; rework above 200 °C on a body). */
import { bad, good, type Result, joined, say } from '../../base/index.ts'
import { type PlacedPart, packageOutlines } from '../../board/index.ts'
import { bakeHours } from '../../heat/index.ts'
import type { BakeLookup, Begun, CheckedInput } from '../input.ts'

export interface Bake {
  readonly refs: readonly string[]
  readonly hours: number
  readonly why: string
}

/** @returns undefined where nothing is to be baked; a fault where a part is over its floor life and no time is known. */
export function bakeOf(checked: CheckedInput): Result<Bake | undefined> {
  const { input, settings } = checked
  const baked = (input.begun?.lifted.size ?? 0) + (input.begun?.refitted.size ?? 0) > 0
  const over = baked ? [] : overFloorLife(checked)
  let hours = 0
  const overLife: string[] = []
  for (const [ref, state] of over) {
    const part = input.model.partByRef.get(ref)
    if (part === undefined) continue
    const needed = (input.bakeHours ?? byTheTable(settings.heat.ovenC))(part, state)
    if (needed === undefined)
      return bad({
        path: `$.floorLife.${ref}`,
        found: say('a part {state}, of moisture level {moistureLevel}, with no bake time known', {
          state,
          moistureLevel: part.description.moistureLevel ?? say('unknown'),
        }),
        expected: say('a level and a height for which the bake table has a time'),
        todo: say('Give its moisture level in the board file, or bake by its maker’s sheet and mark it as within.'),
      })
    if (needed > 0) overLife.push(ref)
    hours = Math.max(hours, needed)
  }
  if (hours === 0) return good(undefined)
  const why = say(
    'At {ovenC} °C for {hours} h, before any other heat: {overLife} {count, plural, one {is} other {are}} over floor life and will be heated beyond {bodyBakeC} °C; trapped moisture bursts parts and joints when they are heated.',
    {
      ovenC: settings.heat.ovenC,
      hours,
      overLife: joined(overLife),
      count: overLife.length,
      bodyBakeC: settings.heat.bodyBakeC,
    },
  )
  return good({ refs: overLife, hours, why })
}

/**
 * Why nothing is baked although bodies pass the temperature from which J-STD-033 asks for it, with what it would take; empty
 * where something is baked, or nothing gets so hot any more.
 */
export function unbakedWords(checked: CheckedInput): string {
  const { input, settings, targets } = checked
  const { ovenC, bodyBakeC } = settings.heat
  const reused = targets.filter(({ ref }) => !isHandled(input.begun, ref) && input.replace?.has(ref) !== true)
  const due = reused.flatMap(({ ref, part }) => {
    const hours = byTheTable(ovenC)(part, 'over by more or unknown')
    return hours === undefined || hours === 0 ? [] : [{ ref, hours, level: levelOf(part) }]
  })
  if (due.length === 0) return ''
  const names = joined(due.map(({ ref, level }) => say('{ref} (level {level})', { ref, level })))
  const said = { names, count: due.length, hours: Math.max(...due.map(({ hours }) => hours)), ovenC, bodyBakeC }
  const isWetted = (input.cleanFirst ?? []).length > 0 || (input.begun?.wet.size ?? 0) > 0
  return isWetted
    ? say(
        'No bake is planned. Drying takes the liquid away, not the damp inside the bodies: if {names} stood wet or open for days, J-STD-033 asks for {hours} h at {ovenC} °C before more than {bodyBakeC} °C. Set it under time out of the dry bag.',
        said,
      )
    : say(
        'No bake is planned: {names} {count, plural, one {counts} other {count}} as within floor life. Over it, or unknown, J-STD-033 asks for {hours} h at {ovenC} °C before more than {bodyBakeC} °C. Set it under time out of the dry bag.',
        said,
      )
}

const isHandled = (begun: Begun | undefined, ref: string): boolean =>
  begun?.lifted.has(ref) === true || begun?.refitted.has(ref) === true || begun?.leftOff.has(ref) === true

const levelOf = ({ description }: PlacedPart) =>
  description.moistureLevel ?? packageOutlines.get(description.package ?? '')?.moistureLevel

const LARGE_ARRAY_MM = 17

/** J-STD-033's bake table; 0 for level 1, which needs none; undefined where the part's level is not known. */
function byTheTable(ovenC: 40 | 90 | 125): BakeLookup {
  return (part: PlacedPart, floorLife) => {
    const level = levelOf(part)
    if (level === undefined) return undefined
    if (level === '1') return 0
    const largeArray = Math.min(part.widthMm, part.lengthMm) > LARGE_ARRAY_MM && part.ballPitchMm !== undefined
    const over = floorLife === 'over by at most 72 h' ? 'up-to-72h' : 'more-than-72h'
    return bakeHours({ thicknessMm: part.heightMm, level, largeArray }, { ovenC, over })?.hours
  }
}

/** Parts over floor life that will get hot: those on the list that are still to be heated, and neighbours above the limit. */
function overFloorLife({ input, settings, targets }: CheckedInput) {
  const hot = new Set(targets.filter(({ ref }) => input.begun?.refitted.has(ref) !== true).map(({ ref }) => ref))
  for (const { exposure } of targets)
    for (const { ref, bodyPeakC } of [...exposure.neighbours, ...(exposure.refit?.neighbours ?? [])])
      if (bodyPeakC > settings.heat.bodyBakeC) hot.add(ref)
  return [...(input.floorLife ?? [])].flatMap(([ref, state]) =>
    state !== 'within' && hot.has(ref) && input.begun?.leftOff.has(ref) !== true ? [[ref, state] as const] : [],
  )
}
