/** The card on the bench: its map, what is known, what can be done, what was done, and the running cost. */
import { roughMoney, say, smallName } from '../../base/index.ts'
import { HelpCircle } from 'lucide-react'
import { useState } from 'react'
import { difficultyCalled } from '../../rehearsal/index.ts'
import { doPractice, leavePractice } from '../actions/practice.ts'
import { Button } from '../controls/Button.tsx'
import type { Selection } from '../sheet/index.ts'
import { useDesk } from '../stores/hooks.ts'
import type { PracticeState, PracticeTable } from '../stores/practiceDesk.ts'
import { HandBack } from './HandBack.tsx'
import { OfferPanel } from './OfferPanel.tsx'
import { MapKey } from './MapKey.tsx'
import { PracticeLog } from './PracticeLog.tsx'
import { PracticeSheet } from './PracticeSheet.tsx'
import { TheCard } from './TheCard.tsx'
import styles from './practice.module.css'

interface BenchProps {
  readonly table: PracticeTable
  readonly state: PracticeState
}

export function PracticeBench({ table, state }: BenchProps) {
  const desk = useDesk()
  const { view, model } = table
  const [selection, setSelection] = useState<Selection | undefined>()
  const busy = state.waiting !== undefined
  return (
    <div className={styles.bench}>
      <div className={styles.strip}>
        <h2>
          {say('Card')} {view.game.seed}
          <span>
            {model.name}, {smallName(difficultyCalled(view.game.difficulty)?.name ?? '')}
          </span>
        </h2>
        <output className={styles.running} aria-label={say('Cost so far')}>
          <b>{view.minutes}</b> {say('min, cost')} <b>{roughMoney(view.money)}</b>
        </output>
        <Button disabled={busy} onClick={() => void doPractice(desk, { kind: 'ask' })}>
          <HelpCircle size={16} aria-hidden="true" /> {say('What would Liftmap do?')}
        </Button>
        <HandBack busy={busy} untested={view.untested} />
        <Button tone="quiet" title={say('Leave this card for another')} onClick={() => void leavePractice(desk)}>
          {say('Leave')}
        </Button>
      </div>
      <div className={styles.sheet}>
        <PracticeSheet table={table} selection={selection} onSelect={setSelection} />
        <p className={styles.busy} role="status">
          {state.waiting === undefined ? '' : `${state.waiting.words} …`}
        </p>
        <MapKey view={view} />
      </div>
      <div className={styles.side}>
        {state.proposed !== undefined && (
          <p className={styles.proposed} role="status">
            <b>{say('Liftmap would:')}</b> {state.proposed.words}
          </p>
        )}
        <TheCard view={view} />
        <OfferPanel view={view} busy={busy} selection={selection} onSelect={setSelection} />
      </div>
      <div className={styles.log}>
        <PracticeLog view={view} />
      </div>
    </div>
  )
}
