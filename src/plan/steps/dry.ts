/** What follows a wash: drying, short and apart from the bake for floor life; and the test, before anything is heated. */
import { joined, minutesWords, say } from '../../base/index.ts'
import { dryWords } from '../../spill/index.ts'
import { coolerWords, type Drying, dryingAfter, takeUpWords, washWords } from './cleaning.ts'
import type { Draft } from './step-draft.ts'
import { type CheckedInput, hasHeated } from '../input.ts'

/** Cleaning alone often cures what a liquid did: common practice, no source. */
const TEST_AGAIN = [
  say('Cleaning alone often cures a wet card, and a run costs less than a lift.'),
  say(
    '1. Measure the rails cold. Where nothing speaks against power, fit the cooler with paste and pads and plug in its fans.',
  ),
  say('2. Run the memory test for hours, warm and from cold; only putting the card together counts as minutes here.'),
  say('3. Add the run as a report: what passes stays on, and the steps below follow it.'),
].join('\n')

/** The run after a wash; none where metal was taken up by hand, as more of it may lie under a body. */
export function testDraft({ input, settings, targets }: CheckedInput): Draft | undefined {
  const first = hasHeated(input.begun) ? [] : (input.cleanFirst ?? [])
  if (washWords(first) === undefined || takeUpWords(first) !== undefined) return undefined
  return { action: 'test', refs: targets.map(({ ref }) => ref), minutes: settings.minutes.run, why: TEST_AGAIN }
}

/** @returns undefined where nothing wet stands on the board; by the substances' figures, and longer where they are not known */
export function dryDraft({ input, settings, targets }: CheckedInput): Draft | undefined {
  const unknown: Drying = { ovenC: settings.heat.ovenC, hours: settings.heat.dryHours }
  const { bakeAttention: minutes } = settings.minutes
  const wet = [...(input.begun?.wet ?? [])]
  if (wet.length > 0) {
    const { ovenC, hours } = dryingAfter(input.substances ?? [], unknown) ?? unknown
    const why = say(
      'Something wet was found under {wet}: rinse there once more, blow out under the parts around it, then dry at {ovenC} °C for {minutesWords} before the next heat. What is trapped boils and bursts joints.',
      { wet: joined(wet), ovenC, minutesWords: minutesWords(hours * 60) },
    )
    return { action: 'dry', refs: wet, minutes, hours, why }
  }
  const first = hasHeated(input.begun) ? [] : (input.cleanFirst ?? [])
  const drying = dryingAfter(first, unknown)
  if (drying === undefined) return undefined
  const { ovenC, hours } = drying
  const why = [dryWords(ovenC, hours * 60), coolerWords(first)].filter(Boolean).join(' ')
  return { action: 'dry', refs: targets.map(({ ref }) => ref), minutes, hours, why }
}
