/** Proof: tested again, before beside after; how much the passes show, and what they leave open. */
import { say } from '../../../base/index.ts'
import { editCase } from '../../actions/edit.ts'
import { TextField } from '../../controls/fields.tsx'
import { StationCautions } from '../../controls/StationCautions.tsx'
import { MachineLook } from '../bench-machine/MachineLook.tsx'
import { SoakTests } from '../bench-machine/SoakTests.tsx'
import { WaitingReports } from '../memory-run/WaitingReports.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk, usePresent, useProof } from '../../stores/hooks.ts'
import { proofState } from './state.ts'
import { BeforeAfter } from './BeforeAfter.tsx'
import { Bound } from './Bound.tsx'
import { MeasuredTable } from './MeasuredTable.tsx'
import { NewCleanRun } from './NewCleanRun.tsx'
import { RetestRuns } from './RetestRuns.tsx'
import { ReportDropZone } from '../memory-run/ReportDropZone.tsx'

export function Proof() {
  const desk = useDesk()
  const present = usePresent()
  const proof = useProof()
  if (present === undefined || proof === undefined) return undefined
  return (
    <>
      <section className={styles.section} aria-label={say('Proof')}>
        <div className={styles.heading}>
          <h2>{say('Proof')}</h2>
          <span>{proofState(present, proof).words}</span>
        </div>
        <StationCautions station="proof" title={say('Before you power it again')} />
        <ReportDropZone
          small
          words={proof.passes.runs.length > 0 ? say('Drop another run, or') : say('Drop a run, or')}
        />
        <WaitingReports run="retest" />
        <NewCleanRun />
        <RetestRuns />
      </section>
      {proof.tested ? (
        <BeforeAfter proof={proof} />
      ) : (
        <p className={styles.quiet}>
          {say('Once a run after the work is here, it stands beside the first, lane by lane.')}
        </p>
      )}
      <Bound proof={proof} />
      <MeasuredTable />
      <SoakTests />
      <MachineLook phase="after" />
      <section className={styles.section} aria-label={say('How it was tested')}>
        <TextField
          label={say('How it was tested')}
          hint={say('Temperature, hours, load: it goes on the record.')}
          long
          maxLength={4000}
          value={present.proofNote}
          onChange={(proofNote) => editCase(desk, (c) => ({ ...c, proofNote }), 'proof note')}
        />
      </section>
    </>
  )
}
