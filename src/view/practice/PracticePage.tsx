/** Practice: a made-up card is chosen, worked on, handed back, and told the truth about. */
import { say } from '../../base/index.ts'
import { useEffect } from 'react'
import { useStore } from 'zustand'
import { findPractice, leavePractice } from '../actions/practice.ts'
import { Button } from '../controls/Button.tsx'
import { ProgressBar } from '../controls/pieces.tsx'
import { FaultRow } from '../controls/FileMessages.tsx'
import files from '../controls/files.module.css'
import { useDesk } from '../stores/hooks.ts'
import type { PracticeState } from '../stores/practiceDesk.ts'
import { PracticeResultView } from './PracticeResultView.tsx'
import { PracticeStart } from './PracticeStart.tsx'
import { PracticeBench } from './PracticeBench.tsx'
import styles from './practice.module.css'

export function PracticePage() {
  const desk = useDesk()
  const state = useStore(desk.practice.store)
  const isUnread = state.stage === 'unread'
  useEffect(() => {
    if (isUnread) void findPractice(desk)
  }, [desk, isUnread])
  return (
    <>
      {state.faults.length > 0 && (
        <ul className={files.faults} role="alert">
          {state.faults.map((fault) => (
            <FaultRow key={`${fault.path} ${fault.found}`} fault={fault} />
          ))}
        </ul>
      )}
      <Stage state={state} />
    </>
  )
}

function Stage({ state }: { readonly state: PracticeState }) {
  const desk = useDesk()
  const { stage, table, result, waiting } = state
  if (stage === 'choosing') return <PracticeStart />
  if (table !== undefined && result !== undefined) return <PracticeResultView table={table} result={result} />
  if (table !== undefined && table.view.handedBack === undefined) return <PracticeBench table={table} state={state} />
  return (
    <div className={styles.waiting} role="status">
      {waiting !== undefined && (
        <ProgressBar share={waiting.progress?.share} words={waiting.progress?.words ?? waiting.words} />
      )}
      {stage === 'playing' && <Button onClick={() => void leavePractice(desk)}>{say('Leave this card')}</Button>}
    </div>
  )
}
