/** The end: the truth, the cost beside others on the same card, what each piece of evidence was worth. */
import { say, smallName } from '../../base/index.ts'
import { RotateCcw, SquarePlus } from 'lucide-react'
import { difficultyCalled, type PracticeResult } from '../../rehearsal/index.ts'
import { leavePractice, playAgain } from '../actions/practice.ts'
import { Button } from '../controls/Button.tsx'
import panel from '../controls/panel.module.css'
import { useDesk } from '../stores/hooks.ts'
import type { PracticeTable } from '../stores/practiceDesk.ts'
import { CostTables } from './CostTables.tsx'
import { EvidenceTable } from './EvidenceTable.tsx'
import { PracticeLog } from './PracticeLog.tsx'
import { PracticeTruth } from './PracticeTruth.tsx'
import { verdictWords } from './words.ts'
import styles from './practiceResult.module.css'

interface ResultProps {
  readonly table: PracticeTable
  readonly result: PracticeResult
}

export function PracticeResultView({ table, result }: ResultProps) {
  const desk = useDesk()
  const { view, model } = table
  return (
    <div className={styles.result}>
      <div className={styles.verdict}>
        <h2>{verdictWords(result)}</h2>
        <p className={panel.quiet}>
          {say('Card {number} of {board}, {difficulty}.', {
            number: String(view.game.seed),
            board: model.name,
            difficulty: smallName(difficultyCalled(view.game.difficulty)?.name ?? ''),
          })}{' '}
          {result.you.asked === 0
            ? say('Liftmap was not asked.')
            : result.you.asked === 1
              ? say('Liftmap was asked once on the way.')
              : say('Liftmap was asked {asked} times on the way.', { asked: result.you.asked })}
        </p>
        <div className={panel.row}>
          <Button tone="strong" onClick={() => void leavePractice(desk)}>
            <SquarePlus size={16} aria-hidden="true" /> {say('Another card')}
          </Button>
          <Button onClick={() => void playAgain(desk)}>
            <RotateCcw size={16} aria-hidden="true" /> {say('This card again')}
          </Button>
        </div>
      </div>
      <div className={styles.columns}>
        <div className={styles.column}>
          <PracticeTruth table={table} result={result} />
          <div className={styles.last}>
            <PracticeLog view={view} />
          </div>
        </div>
        <div className={styles.column}>
          <CostTables result={result} />
          <EvidenceTable result={result} />
        </div>
      </div>
    </div>
  )
}
