/** The steps before the first heat: take up, wash, dry, test again, bake for floor life, make ready. */
import { joined, say } from '../../base/index.ts'
import type { Bake } from './bake.ts'
import { takeUpWords, washWords } from './cleaning.ts'
import type { Draft } from './step-draft.ts'
import { dryDraft, testDraft } from './dry.ts'
import { byRef, type CheckedInput, hasHeated } from '../input.ts'
import type { Substance } from '../../spill/index.ts'

/**
 * Drafts before the first lift, in bench order. Taking up, washing and making ready are left out once something was
 * heated; drying and the bake come only where they are due.
 * @param isHeatDue whether anything is still to be lifted or refitted
 */
export function opening(checked: CheckedInput, isHeatDue: boolean, bake: Bake | undefined): Draft[] {
  const { settings, input } = checked
  const isFresh = !hasHeated(input.begun) && isHeatDue
  const dry = dryDraft(checked)
  const test = isHeatDue ? testDraft(checked) : undefined
  return [
    ...(isFresh ? cleaning(checked) : []),
    ...(dry === undefined ? [] : [dry]),
    ...(test === undefined ? [] : [test]),
    ...(bake === undefined
      ? []
      : [
          {
            action: 'bake' as const,
            refs: bake.refs,
            minutes: settings.minutes.bakeAttention,
            hours: bake.hours,
            why: bake.why,
          },
        ]),
    ...(isFresh ? [prepare(checked)] : []),
  ]
}

/** Metal, paste and the like by hand first, for anything wet would carry them under bodies; then what is rinsed. */
function cleaning({ input, settings: { minutes }, targets }: CheckedInput): Draft[] {
  const first = input.cleanFirst ?? []
  const refs = targets.map(({ ref }) => ref)
  const takeUp = takeUpWords(first)
  const wash = washWords(first)
  return [
    ...(takeUp === undefined ? [] : [{ action: 'take-up' as const, refs, minutes: minutes.takeUpMetal, why: takeUp }]),
    ...(wash === undefined ? [] : [{ action: 'wash' as const, refs, minutes: minutes.wash, why: wash }]),
  ]
}

const eatsAluminium = ({ attacks }: Substance): boolean => attacks.some(({ what }) => what === 'aluminium')

function prepare({ settings, targets, input }: CheckedInput): Draft {
  const shields = new Set(targets.flatMap(({ exposure }) => exposure.setting.shields.map(({ ref }) => ref)))
  const covered = joined([...shields].toSorted(byRef))
  const foil = (input.substances ?? []).some(eatsAluminium)
    ? say('polyimide tape, two layers where the air blows: no aluminium foil on this card')
    : say('polyimide tape, and aluminium foil where the air blows')
  return {
    action: 'prepare',
    refs: targets.map(({ ref }) => ref),
    minutes: settings.minutes.prepare,
    why: [
      say('1. Photograph each part with its pin 1; look for glue at its corners and underfill.'),
      shields.size > 0
        ? say('2. Cover what stands inside and beside the nozzle with {foil}, cover {covered}.', { foil, covered })
        : say('2. Cover what stands inside and beside the nozzle with {foil}.', { foil }),
      say(
        '3. Lay out the materials listed, run flux around each part, fix the board, place a thermocouple at a joint.',
      ),
      say('Touch nothing underneath while it is hot.'),
    ].join('\n'),
  }
}
