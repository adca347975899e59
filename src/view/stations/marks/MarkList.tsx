/** Marks as a list: each is shown on the sheet, opened for editing, or taken away. */
import { sideWords } from '../../../case/index.ts'
import { decimals, say } from '../../../base/index.ts'
import { Trash2 } from 'lucide-react'
import type { ReactNode } from 'react'
import type { Mark } from '../../../spill/index.ts'
import { removeMark } from '../../actions/edit.ts'
import { showOnSheet } from '../../actions/show.ts'
import { Button } from '../../controls/Button.tsx'
import { pointOfMark } from '../../stores/derive.ts'
import { useDesk, useScreen } from '../../stores/hooks.ts'
import styles from '../../controls/stations.module.css'

interface MarkListProps {
  readonly label: string
  readonly marks: readonly Mark[]
  readonly nameOf: (mark: Mark) => string
  /** Fields of the mark that is open. */
  readonly fieldsOf: (mark: Mark) => ReactNode
}

export function MarkList({ label, marks, nameOf, fieldsOf }: MarkListProps) {
  const desk = useDesk()
  const selection = useScreen((screen) => screen.selection)
  return (
    <ul className={styles.marks} aria-label={label}>
      {marks.map((mark) => {
        const open = selection?.kind === 'mark' && selection.id === mark.id
        return (
          <li key={mark.id} data-open={open}>
            <div className={styles.markHead}>
              <button
                type="button"
                aria-expanded={open}
                onClick={() =>
                  open
                    ? desk.screen.setState({ selection: undefined })
                    : showOnSheet(desk, { kind: 'mark', id: mark.id })
                }
                onMouseEnter={() => desk.screen.setState({ hovered: { kind: 'mark', id: mark.id } })}
                onMouseLeave={() => desk.screen.setState({ hovered: undefined })}
              >
                <b>{nameOf(mark)}</b> <span>{placeWords(mark)}</span>
              </button>
              <Button
                size="icon"
                tone="quiet"
                aria-label={say('Remove {mark}', { mark: nameOf(mark) })}
                title={say('Remove')}
                onClick={() => removeMark(desk, mark.id)}
              >
                <Trash2 size={15} aria-hidden="true" />
              </Button>
            </div>
            {open && <div className={styles.fields}>{fieldsOf(mark)}</div>}
          </li>
        )
      })}
    </ul>
  )
}

function placeWords(mark: Mark): string {
  const { x, y } = pointOfMark(mark)
  return `x ${decimals(x, 1)}, y ${decimals(y, 1)} mm, ${sideWords[mark.side]}`
}
