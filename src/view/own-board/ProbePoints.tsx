/** Where a probe reaches a rail: a list with places, and a hand that puts more on the sheet. */
import { sideWords } from '../../case/index.ts'
import { say } from '../../base/index.ts'
import { X } from 'lucide-react'
import type { Rail } from '../../board/index.ts'
import { Button } from '../controls/Button.tsx'
import { CommitNumber } from './CommitField.tsx'
import { edit } from './editorStore.ts'
import styles from './own-board.module.css'
import { tried } from './tried.ts'
import { useEditor, useEditorStore } from './useEditor.ts'

export function ProbePoints({ rail }: { readonly rail: Rail }) {
  const editor = useEditorStore()
  const tool = useEditor((state) => state.tool)
  return (
    <div className={styles.fields} role="group" aria-label={say('Probe points')}>
      <p>
        <b>{say('Probe points')}</b> {rail.points.length === 0 && say('none known')}
      </p>
      <ol className={styles.points}>
        {rail.points.map((point, index) => {
          const { x, y } = point.at
          const words = say('point {index}', { index: index + 1 })
          const move = (at: { x: number; y: number }) =>
            tried(editor, { kind: 'move-point', rail: rail.name, index, at })
          return (
            <li key={`${x} ${y} ${point.side}`} aria-label={say('Probe {words}, {side}', { words, side: point.side })}>
              <span>
                {index + 1} {sideWords[point.side]}
                {point.part !== undefined && `, ${point.part}${point.pad === undefined ? '' : `.${point.pad}`}`}
              </span>
              <CommitNumber
                label={say('x of {words}', { words })}
                labelHidden
                unit="mm"
                value={x}
                onCommit={(to = x) => move({ x: to, y })}
              />
              <CommitNumber
                label={say('y of {words}', { words })}
                labelHidden
                unit="mm"
                value={y}
                onCommit={(to = y) => move({ x, y: to })}
              />
              <Button
                size="icon"
                tone="quiet"
                aria-label={say('Take away {words}', { words })}
                onClick={() => edit(editor, { kind: 'remove-point', rail: rail.name, index })}
              >
                <X size={15} aria-hidden="true" />
              </Button>
            </li>
          )
        })}
      </ol>
      <div className={styles.buttons}>
        <Button
          aria-pressed={tool === 'point'}
          onClick={() => editor.setState({ tool: tool === 'point' ? 'select' : 'point' })}
        >
          {tool === 'point' ? say('Press on the sheet; here to stop') : say('Put points on the sheet')}
        </Button>
        <Button
          onClick={() => {
            const { view } = editor.getState()
            edit(editor, { kind: 'add-point', rail: rail.name, point: { side: view.side, at: view.centre } })
          }}
        >
          {say('Add one in the middle')}
        </Button>
      </div>
    </div>
  )
}
