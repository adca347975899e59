/** What the board check says while the board is edited; each line points at its place on the sheet. */
import { CircleAlert, CircleCheck, Info } from 'lucide-react'
import { say } from '../../base/index.ts'
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
    <section className={styles.check} aria-label={say('Board check')}>
      <h3>
        {check.faults === 0 ? (
          <CircleCheck size={17} aria-hidden="true" />
        ) : (
          <CircleAlert size={17} aria-hidden="true" />
        )}
        <span role="status">
          {check.faults === 0
            ? say('The board is sound')
            : say('{faults, plural, one {# fault} other {# faults}} on the board', { faults: check.faults })}
          {remarks > 0 && <small>, {say('{remarks, plural, one {# remark} other {# remarks}}', { remarks })}</small>}
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
                <span className="visually-hidden">{line.tone === 'fault' ? say('Fault: ') : say('Remark: ')}</span>
                {line.words}
              </span>
            </button>
          </li>
        ))}
      </ul>
      {check.lines.length > MOST_LINES && (
        <p>
          {say('{length, plural, one {# more line} other {# more lines}}', { length: check.lines.length - MOST_LINES })}
          .
        </p>
      )}
    </section>
  )
}
