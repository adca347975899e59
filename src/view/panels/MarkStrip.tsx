/** At the sheet's edge while the hand marks: the kind of mark, its shape, and how wide the brush is. */
import { millimetres, say } from '../../base/index.ts'
import { Minus, Plus } from 'lucide-react'
import { resizeBrush, takeTool } from '../actions/tools.ts'
import styles from '../controls/sheetPane.module.css'
import { mannerNames, manners } from '../stations/inspection/manners.ts'
import { seenKinds } from '../stations/inspection/seenKinds.ts'
import { useDesk, useScreen } from '../stores/hooks.ts'
import { isMarkKind } from '../stores/toolStore.ts'

export function MarkStrip() {
  const desk = useDesk()
  const tool = useScreen((screen) => screen.tool)
  const painting = useScreen((screen) => screen.painting)
  if (!isMarkKind(tool)) return undefined
  return (
    <div className={styles.strip} role="toolbar" aria-label={say('Mark')}>
      <div className={styles.joined} role="group" aria-label={say('Kind of mark')}>
        {seenKinds.map(({ value, words, help }) => (
          <button
            key={value}
            type="button"
            aria-pressed={value === tool}
            title={help}
            onClick={() => takeTool(desk, value)}
          >
            {words}
          </button>
        ))}
      </div>
      {tool !== 'slip' && (
        <div className={styles.joined} role="group" aria-label={say('Shape')}>
          {mannerNames.map((manner) => {
            const { icon: Icon, words, help } = manners[manner]
            return (
              <button
                key={manner}
                type="button"
                aria-pressed={manner === painting.manner}
                title={help}
                onClick={() => desk.screen.setState({ painting: { ...painting, manner } })}
              >
                <Icon size={15} aria-hidden="true" /> {words}
              </button>
            )
          })}
        </div>
      )}
      {tool !== 'slip' && painting.manner === 'brush' && (
        <div className={styles.joined} role="group" aria-label={say('Width of the brush')}>
          <button
            type="button"
            aria-label={say('Smaller brush')}
            aria-keyshortcuts="["
            onClick={() => resizeBrush(desk, -1)}
          >
            <Minus size={15} aria-hidden="true" />
          </button>
          <output className={styles.width}>{millimetres(2 * painting.brushMm)}</output>
          <button
            type="button"
            aria-label={say('Larger brush')}
            aria-keyshortcuts="]"
            onClick={() => resizeBrush(desk, 1)}
          >
            <Plus size={15} aria-hidden="true" />
          </button>
        </div>
      )}
    </div>
  )
}
