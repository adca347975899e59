/** Inspection: photos under the drawing, what is seen on the board, and where there is nothing. */
import { toggleTool } from '../../actions/tools.ts'
import { Button } from '../../controls/Button.tsx'
import { Opening } from '../../controls/pieces.tsx'
import { StationCautions } from '../../controls/StationCautions.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk, usePresent, useScreen } from '../../stores/hooks.ts'
import { PaintChoice } from './PaintChoice.tsx'
import { Photos } from './Photos.tsx'
import { SeenFields } from './SeenFields.tsx'
import { nameOfSeen, seenKinds, seenMarks } from './seenKinds.ts'
import { TypedMark } from './TypedMark.tsx'
import { MarkList } from '../marks/MarkList.tsx'

export function Inspection() {
  const desk = useDesk()
  const present = usePresent()
  const tool = useScreen((screen) => screen.tool)
  if (present === undefined) return undefined
  const marks = seenMarks(present.marks)
  return (
    <section className={styles.section} aria-label="Inspection">
      <div className={styles.heading}>
        <h2>Inspection</h2>
        <span>what you see, and where there is nothing</span>
      </div>
      <div className={styles.row}>
        {seenKinds.map((kind) => (
          <Button
            key={kind.value}
            aria-pressed={tool === kind.value}
            tone={tool === kind.value ? 'strong' : 'plain'}
            title={kind.help}
            onClick={() => toggleTool(desk, kind.value)}
          >
            {kind.words}
          </Button>
        ))}
      </div>
      <PaintChoice />
      {marks.length > 0 && (
        <MarkList
          label="Seen on the board"
          marks={marks}
          nameOf={nameOfSeen}
          fieldsOf={(mark) => <SeenFields mark={mark} />}
        />
      )}
      <Opening summary="Type a mark’s place instead">
        <TypedMark />
      </Opening>
      <Photos />
      <StationCautions station="inspection" title="While you look and clean" />
    </section>
  )
}
