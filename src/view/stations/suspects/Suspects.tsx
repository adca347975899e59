/** Suspects: the lift list, the stories behind it, the cautions before heat, and the assumptions, each open to change. */
import { say } from '../../../base/index.ts'
import { Opening } from '../../controls/pieces.tsx'
import { LiftList } from './LiftList.tsx'
import { NextChecks } from './NextChecks.tsx'
import { ProposalPanel } from './ProposalPanel.tsx'
import { Stories } from './Stories.tsx'
import { StationCautions } from '../../controls/StationCautions.tsx'
import styles from '../../controls/panel.module.css'
import { usePresent } from '../../stores/hooks.ts'
import { AssumptionsEditor } from './AssumptionsEditor.tsx'
import { OwnRecordInUse } from './OwnRecordInUse.tsx'

export function Suspects() {
  const present = usePresent()
  if (present === undefined) return undefined
  const changed = Object.values(present.assumptions ?? {}).reduce(
    (sum, section) => sum + Object.keys(section ?? {}).length,
    0,
  )
  return (
    <>
      <LiftList>
        <StationCautions station="suspects" title={say('Before you heat anything')} />
      </LiftList>
      <ProposalPanel />
      <Stories />
      <NextChecks />
      <section className={styles.section} aria-label={say('Assumptions')}>
        <OwnRecordInUse />
        <Opening
          summary={changed === 0 ? say('Assumptions') : say('Assumptions: {changed} changed by you', { changed })}
        >
          <AssumptionsEditor />
        </Opening>
      </section>
    </>
  )
}
