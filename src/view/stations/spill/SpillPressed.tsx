/** Whether a cooler was pressed on the spill, and how far that pushed it: asked of what stays where it was smeared. */
import { say } from '../../../base/index.ts'
import { pressedChance, pressingOf, type SpillMark, type Substance } from '../../../spill/index.ts'
import { Choice, NumberField } from '../../controls/fields.tsx'
import { percent } from '../../stores/words.ts'

interface PressedProps {
  readonly mark: SpillMark
  readonly substance: Substance
  readonly set: (change: Partial<SpillMark>) => void
}

const answers = [
  { value: 'yes', words: say('Yes') },
  { value: 'no', words: say('No') },
  { value: 'unknown', words: say('Not known') },
] as const

/** How far is asked only of a yes; a change of the answer forgets it. */
export function PressedField({ mark, substance, set }: PressedProps) {
  const value = mark.pressed === 'unknown' && mark.pushMm > 0 ? 'yes' : mark.pressed
  return (
    <Choice
      label={say('Was a cooler pressed on it?')}
      hint={hintOf(mark, substance)}
      value={value}
      options={answers}
      onChange={(pressed) => set({ pressed, pushMm: 0 })}
    />
  )
}

export function PushField({ mark, substance, set }: PressedProps) {
  if (mark.pressed === 'no' || (mark.pressed === 'unknown' && mark.pushMm === 0)) return undefined
  return (
    <NumberField
      label={say('It was pushed as far as')}
      hint={say('0 where nobody saw it: then about {pushMm} mm is taken, more or less.', {
        pushMm: pressingOf(substance).pushMm,
      })}
      unit="mm"
      min={0}
      max={200}
      value={mark.pushMm}
      onChange={(pushMm) => set({ pressed: 'yes', pushMm })}
    />
  )
}

function hintOf(mark: SpillMark, substance: Substance): string {
  const chance = pressedChance(mark, substance)
  if (chance === 0) return say('Then it is under no part: it stays where it was smeared.')
  if (chance === 1) return say('Or shaken or wiped: that pushes it under the parts beside it.')
  return say('Also when it was shaken or wiped. Until then both are counted, a yes with {chance}.', {
    chance: percent(chance),
  })
}
