/** The right column: the station's form, or the evidence of what is selected; the lift list stays in sight below a form. */
import { say } from '../../base/index.ts'
import { useStore } from 'zustand'
import { useBoard, useDesk, usePresent, useScreen } from '../stores/hooks.ts'
import { PANEL_ID } from '../actions/goToStation.ts'
import { entries } from '../stations/entries.ts'
import { Boundary } from './Boundary.tsx'
import { Evidence } from './Evidence.tsx'
import { LiftList } from '../stations/suspects/LiftList.tsx'
import { NextStation } from './NextStation.tsx'
import { PartsList } from './PartsList.tsx'
import styles from '../controls/panel.module.css'

export function WhyPanel() {
  const present = usePresent()
  const station = useScreen((screen) => screen.station)
  const selection = useScreen((screen) => screen.selection)
  const model = useBoard()?.model
  const caseId = useStore(useDesk().cases, ({ id }) => id)
  if (present === undefined) return <aside className={styles.why} aria-label={say('Why')} />
  const { Form, isLine, showsLiftList } = entries[station]
  return (
    <aside id={PANEL_ID} className={styles.why} aria-label={say('Why')}>
      {selection !== undefined && selection.kind !== 'mark' && isLine?.(selection, model) !== true ? (
        <Boundary what={say('This evidence')} drawn={selection}>
          <Evidence selection={selection} />
        </Boundary>
      ) : (
        <>
          <Boundary what={say('This station')} drawn={`${caseId} ${station}`}>
            <Form />
          </Boundary>
          {showsLiftList && (
            <div data-beside-form style={{ display: 'contents' }}>
              <LiftList short />
            </div>
          )}
          <NextStation station={station} />
          <PartsList />
        </>
      )}
    </aside>
  )
}
