/** What the board check says while the board is edited; each line points at its place on the sheet. */
import { CircleAlert, CircleCheck, Info } from 'lucide-react'
import { counted } from '../../base/index.ts'
import { pointAt } from './editorStore.ts'
import styles from './own-board.module.css'
import type { Check } from './useCheck.ts'
import { useEditor, useEditorStore } from './useEditor.ts'

const MOST_LINES = 60

export function CheckList({ check }: { readonly check: Check }) {
  const editor = useEditorStore()
  const pointed = useEditor((state) => state.pointed)
  const remarks = check.lines.length - check.faults
  return (
    <section className={styles.check} aria-label="Board check">
      <h3>
        {check.faults === 0 ? (
          <CircleCheck size={17} aria-hidden="true" />
        ) : (
          <CircleAlert size={17} aria-hidden="true" />
        )}
        <span role="status">
          {check.faults === 0 ? 'The board is sound' : `${counted(check.faults, 'fault')} on the board`}
          {remarks > 0 && <small>, {counted(remarks, 'remark')}</small>}
        </span>
      </h3>
      <ul>
        {check.lines.slice(0, MOST_LINES).map((line) => (
          <li key={`${line.tone} ${line.words}`}>
            <button
              type="button"
              data-tone={line.tone}
              aria-pressed={pointed === line.place}
              onClick={() => pointAt(editor, line.place)}
            >
              {line.tone === 'fault' ? (
                <CircleAlert size={15} aria-hidden="true" />
              ) : (
                <Info size={15} aria-hidden="true" />
              )}
              <span>
                <span className="visually-hidden">{line.tone === 'fault' ? 'Fault: ' : 'Remark: '}</span>
                {line.words}
              </span>
            </button>
          </li>
        ))}
      </ul>
      {check.lines.length > MOST_LINES && <p>{counted(check.lines.length - MOST_LINES, 'more line')}.</p>}
    </section>
  )
}
