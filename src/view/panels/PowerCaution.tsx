/** The caution against powering the card: stays for as long as something that was entered speaks against it. */
import { CautionBox } from '../controls/pieces.tsx'
import { LinkButton } from '../controls/Button.tsx'
import { powerCaution } from '../stores/cautions.ts'
import { useDesk, usePresent } from '../stores/hooks.ts'
import { usePowerJudgement } from '../stores/measuring.ts'

export function PowerCaution() {
  const desk = useDesk()
  const present = usePresent()
  const judgement = usePowerJudgement()
  const caution = present && powerCaution(present, judgement)
  if (caution === undefined) return undefined
  return (
    <CautionBox title={caution.title} reasons={caution.reasons.slice(0, 2)}>
      <LinkButton onClick={() => desk.screen.setState({ station: 'arrival', selection: undefined })}>
        All reasons
      </LinkButton>
    </CautionBox>
  )
}
