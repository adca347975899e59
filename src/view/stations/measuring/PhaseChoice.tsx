/** Whether a reading is from before the work on the card or after it. */
import { say } from '../../../base/index.ts'
import { choosePhase } from './measure.ts'
import { Choice } from '../../controls/fields.tsx'
import { useDesk } from '../../stores/hooks.ts'
import { usePhase } from '../../stores/measuring.ts'

const phases = [
  { value: 'before', words: say('Before the work') },
  { value: 'after', words: say('After the work') },
] as const

export function PhaseChoice() {
  const desk = useDesk()
  const phase = usePhase()
  return (
    <Choice
      label={say('These readings are from')}
      labelHidden
      value={phase}
      options={phases}
      onChange={(chosen) => choosePhase(desk, chosen)}
    />
  )
}
