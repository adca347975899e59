/** The drying after a wash, and of what was found wet: short, and apart from the bake for floor life. */
import { joined, minutesWords } from '../../base/index.ts'
import { dryWords } from '../../spill/index.ts'
import { coolerWords, type Drying, dryingAfter } from './cleaning.ts'
import type { Draft } from './step-draft.ts'
import { type CheckedInput, hasHeated } from '../input.ts'

/** Cleaning alone often cures what a liquid did: common practice, no source. */
const TEST_AGAIN =
  'Once dry, measure the rails cold. Where nothing speaks against power, fit the cooler with paste and pads, plug in its fans, and run the memory test again before any lift: what passes stays on.'

/** @returns undefined where nothing wet stands on the board; by the substances' figures, and longer where they are not known */
export function dryDraft({ input, settings, targets }: CheckedInput): Draft | undefined {
  const unknown: Drying = { ovenC: settings.heat.ovenC, hours: settings.heat.dryHours }
  const { bakeAttention: minutes } = settings.minutes
  const wet = [...(input.begun?.wet ?? [])]
  if (wet.length > 0) {
    const { ovenC, hours } = dryingAfter(input.substances ?? [], unknown) ?? unknown
    const why = `Something wet was found under ${joined(wet)}: rinse there once more, blow out under the parts around it, then dry at ${ovenC} °C for ${minutesWords(hours * 60)} before the next heat. What is trapped boils and bursts joints.`
    return { action: 'dry', refs: wet, minutes, hours, why }
  }
  const first = hasHeated(input.begun) ? [] : (input.cleanFirst ?? [])
  const drying = dryingAfter(first, unknown)
  if (drying === undefined) return undefined
  const { ovenC, hours } = drying
  const why = [dryWords(ovenC, hours * 60), coolerWords(first), TEST_AGAIN].filter(Boolean).join(' ')
  return { action: 'dry', refs: targets.map(({ ref }) => ref), minutes, hours, why }
}
