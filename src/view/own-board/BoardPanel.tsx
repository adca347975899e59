/** The board as such in the side panel: its name, what it is like, and what was done since it was opened. */
import { counted, say } from '../../base/index.ts'
import { partKinds } from '../../board/index.ts'
import { Button } from '../controls/Button.tsx'
import { CommitField } from './CommitField.tsx'
import { edit } from './editorStore.ts'
import styles from './own-board.module.css'
import { tried } from './tried.ts'
import { useEditedBoard, useEditor, useEditorStore } from './useEditor.ts'

const kinds = ['core', 'memory', 'power-stage', 'controller', 'inductor', 'capacitor', 'connector', 'other'] as const

export function BoardPanel() {
  const editor = useEditorStore()
  const board = useEditedBoard()
  const past = useEditor(({ session }) => session.past)
  return (
    <>
      <CommitField
        label={say('Name of the board')}
        value={board.name}
        hint={say('Good cards and words of reports go by this name.')}
        onCommit={(to) => tried(editor, { kind: 'rename-board', to: to.trim() })}
      />
      <ul className={styles.plainList}>
        {kinds.flatMap((kind) => {
          const count = board.parts.filter((part) => part.kind === kind).length
          const [one, several] = partKinds[kind].words
          return count === 0 ? [] : <li key={kind}>{counted(count, one, several)}</li>
        })}
        <li>{say('{length, plural, one {# rail} other {# rails}}', { length: board.rails.length })}</li>
        <li>{say('{length, plural, one {# channel} other {# channels}}', { length: board.memory.channels.length })}</li>
        <li>
          {board.addressMap === undefined
            ? say('no address map')
            : say('address map of {addressBits} bits', { addressBits: board.addressMap.addressBits })}
        </li>
      </ul>
      {board.addressMap !== undefined && (
        <div className={styles.fields}>
          <Button onClick={() => edit(editor, { kind: 'forget-address-map' })}>
            {say('Take the address map away')}
          </Button>
          <p className={styles.quiet}>
            {say('Where channels come or go, the old map is wrong: learn it anew under Addresses.')}
          </p>
        </div>
      )}
      <section aria-label={say('Done so far')}>
        <p>
          <b>{past.length === 0 ? say('Nothing changed yet.') : say('Done so far, the last first')}</b>
        </p>
        <ol className={styles.plainList}>
          {past
            .slice(-30)
            .toReversed()
            .map(({ words }, i) => (
              <li key={`${past.length - i} ${words}`}>{words}</li>
            ))}
        </ol>
      </section>
    </>
  )
}
