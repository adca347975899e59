/** Inspection: photos under the drawing, what is seen on the board, and where there is nothing. */
import { say } from '../../../base/index.ts'
import { PencilRuler } from 'lucide-react'
import { takeBarTool, takeTool } from '../../actions/tools.ts'
import { Button } from '../../controls/Button.tsx'
import { Opening } from '../../controls/pieces.tsx'
import { StationCautions } from '../../controls/StationCautions.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk, usePresent, useScreen } from '../../stores/hooks.ts'
import { isMarkKind } from '../../stores/toolStore.ts'
import { Photos } from './Photos.tsx'
import { SeenFields } from './SeenFields.tsx'
import { nameOfSeen, seenMarks } from './seenKinds.ts'
import { TypedMark } from './TypedMark.tsx'
import { MarkList } from '../marks/MarkList.tsx'

export function Inspection() {
  const desk = useDesk()
  const present = usePresent()
  const marking = useScreen((screen) => isMarkKind(screen.tool))
  if (present === undefined) return undefined
  const marks = seenMarks(present.marks)
  return (
    <section className={styles.section} aria-label={say('Inspection')}>
      <div className={styles.heading}>
        <h2>{say('Inspection')}</h2>
      </div>
      <div className={styles.row}>
        <Button
          tone={marking ? 'strong' : 'plain'}
          aria-pressed={marking}
          aria-keyshortcuts="M"
          onClick={() => (marking ? takeTool(desk, 'select') : takeBarTool(desk, 'mark'))}
        >
          <PencilRuler size={15} aria-hidden="true" /> {say('Mark what you see')}
        </Button>
        <span className={styles.quiet}>{say('clean spots too')}</span>
      </div>
      <StationCautions station="inspection" title={say('While you look and clean')} />
      {marks.length > 0 && (
        <MarkList
          label={say('Seen on the board')}
          marks={marks}
          nameOf={nameOfSeen}
          fieldsOf={(mark) => <SeenFields mark={mark} />}
        />
      )}
      <Opening summary={say('Type a mark’s place instead')}>
        <TypedMark />
      </Opening>
      <Photos />
    </section>
  )
}
