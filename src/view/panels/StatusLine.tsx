/** The last line: what is pointed at or selected, where the pointer is, and what is being worked on. */
import { listPartFacts } from '../stores/partFacts.ts'
import { useBoard, useResults, useScreen, useTally } from '../stores/hooks.ts'
import styles from './statusLine.module.css'

export function StatusLine() {
  const board = useBoard()
  const tally = useTally()
  const assessment = useResults((results) => results.assessment)
  const working = useResults((results) => results.state === 'working')
  const shown = useScreen((screen) => screen.hovered ?? screen.selection)
  const pointer = useScreen((screen) => screen.pointer)
  const facts = board === undefined || shown === undefined ? [] : listPartFacts(board.model, shown, tally, assessment)
  return (
    <footer className={styles.status}>
      {facts.length === 0 ? (
        <span>Click a part for its evidence. Drag to move the sheet, scroll to zoom.</span>
      ) : (
        facts.map((fact, i) => (i === 0 ? <b key={fact}>{fact}</b> : <span key={fact}>{fact}</span>))
      )}
      <span className={styles.right}>
        {working && <span>working</span>}
        {pointer !== undefined && (
          <span>
            x {pointer.at.x.toFixed(1)} y {pointer.at.y.toFixed(1)} mm
          </span>
        )}
      </span>
    </footer>
  )
}
