/** The caution against powering the card: stays for as long as something that was measured or entered speaks against it. */
import { say } from '../../base/index.ts'
import { AGAINST_POWER } from '../../case/index.ts'
import { goToStation } from '../actions/goToStation.ts'
import { LinkButton } from '../controls/Button.tsx'
import { CautionBox } from '../controls/pieces.tsx'
import { useDesk } from '../stores/hooks.ts'
import { usePowerCaution } from '../stores/measuring.ts'

export function PowerCaution() {
  const desk = useDesk()
  const reasons = usePowerCaution()
  if (reasons.length === 0) return undefined
  return (
    <CautionBox title={AGAINST_POWER} reasons={reasons}>
      <LinkButton onClick={() => goToStation(desk, 'powered-measuring')}>{say('Decide it')}</LinkButton>
    </CautionBox>
  )
}
