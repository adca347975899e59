/** The right column: the station's form, or the evidence of what is selected; the lift list stays in sight below a form. */
import type { ComponentType } from 'react'
import { useStore } from 'zustand'
import { useBoard, useDesk, usePresent, useScreen } from '../stores/hooks.ts'
import { isMeasuringLine } from '../stores/measuring.ts'
import type { Station } from '../stores/screenStore.ts'
import { PANEL_ID } from '../actions/stations.ts'
import { Arrival } from '../stations/Arrival.tsx'
import { ColdMeasuring } from '../stations/ColdMeasuring.tsx'
import { HandBack } from '../stations/HandBack.tsx'
import { Inspection } from '../stations/Inspection.tsx'
import { MemoryRun } from '../stations/MemoryRun.tsx'
import { Plan } from '../stations/Plan.tsx'
import { PoweredMeasuring } from '../stations/PoweredMeasuring.tsx'
import { Proof } from '../stations/Proof.tsx'
import { Spill } from '../stations/Spill.tsx'
import { Suspects } from '../stations/Suspects.tsx'
import { Boundary } from './Boundary.tsx'
import { Evidence } from './Evidence.tsx'
import { LiftList } from './LiftList.tsx'
import { PartsList } from './PartsList.tsx'
import styles from './why.module.css'

const forms: Readonly<Record<Station, ComponentType>> = {
  arrival: Arrival,
  'cold-measuring': ColdMeasuring,
  'powered-measuring': PoweredMeasuring,
  'memory-run': MemoryRun,
  inspection: Inspection,
  spill: Spill,
  suspects: Suspects,
  plan: Plan,
  proof: Proof,
  'hand-back': HandBack,
}

const withoutLiftList: readonly Station[] = ['suspects', 'plan', 'proof', 'hand-back']

export function WhyPanel() {
  const present = usePresent()
  const station = useScreen((screen) => screen.station)
  const selection = useScreen((screen) => screen.selection)
  const model = useBoard()?.model
  const caseId = useStore(useDesk().cases, ({ id }) => id)
  if (present === undefined) return <aside className={styles.why} aria-label="Why" />
  const Form = forms[station]
  return (
    <aside id={PANEL_ID} className={styles.why} aria-label="Why">
      {selection !== undefined && selection.kind !== 'mark' && !isMeasuringLine(model, station, selection) ? (
        <Boundary what="This evidence" drawn={selection}>
          <Evidence selection={selection} />
        </Boundary>
      ) : (
        <>
          <Boundary what="This station" drawn={`${caseId} ${station}`}>
            <Form />
          </Boundary>
          {!withoutLiftList.includes(station) && <LiftList short />}
          <PartsList />
        </>
      )}
    </aside>
  )
}
