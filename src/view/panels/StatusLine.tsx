/** The last line: what was just done, with the way back; what the hand can do; what is pointed at, and where the pointer is. */
import { decimals, say } from '../../base/index.ts'
import { Undo2 } from 'lucide-react'
import { undoEdit } from '../actions/edit.ts'
import { Button } from '../controls/Button.tsx'
import { useActWords } from '../stores/actStore.ts'
import { listPartFacts } from '../stores/partFacts.ts'
import { useBoard, useDesk, useResults, useScreen, useTally } from '../stores/hooks.ts'
import { useHint } from './useHint.ts'
import styles from './statusLine.module.css'

export function StatusLine() {
  const desk = useDesk()
  const board = useBoard()
  const tally = useTally()
  const assessment = useResults((results) => results.assessment)
  const working = useResults((results) => results.state === 'working')
  const shown = useScreen((screen) => screen.hovered ?? screen.selection)
  const pointer = useScreen((screen) => screen.pointer)
  const isBusy = useScreen((screen) => screen.tool !== 'select' || screen.naming.held !== undefined)
  const act = useActWords()
  const hint = useHint()
  const facts = board === undefined || shown === undefined ? [] : listPartFacts(board.model, shown, tally, assessment)
  return (
    <footer className={styles.status} aria-label={say('What the hand does')}>
      {act !== undefined && (
        <span className={styles.act}>
          <b>{act}</b>
          <Button tone="quiet" onClick={() => undoEdit(desk)} aria-label={say('Undo: {act}', { act })}>
            <Undo2 size={14} aria-hidden="true" /> {say('Undo')}
          </Button>
        </span>
      )}
      {(isBusy || facts.length === 0) && <span>{hint}</span>}
      {!isBusy && facts.map((fact, i) => (i === 0 ? <b key={fact}>{fact}</b> : <span key={fact}>{fact}</span>))}
      <span className={styles.right}>
        {working && <span>{say('working')}</span>}
        {pointer !== undefined && (
          <span>
            x {decimals(pointer.at.x, 1)} y {decimals(pointer.at.y, 1)} mm
          </span>
        )}
      </span>
    </footer>
  )
}
