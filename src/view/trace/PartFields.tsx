/** The selected part: its place and turn by number, in steps by key, and what else can be done with it. */
import { plainly, say } from '../../base/index.ts'
import { RotateCcw, Trash2 } from 'lucide-react'
import type { TracedPart } from '../../trace/index.ts'
import { Button } from '../controls/Button.tsx'
import { NumberField } from '../controls/fields.tsx'
import { kindWords } from './bodies.ts'
import styles from './trace.module.css'
import type { TraceState } from './useTrace.ts'
import { withoutPart, withPartChanged } from './work.ts'

interface PartFieldsProps {
  readonly trace: TraceState
  readonly part: TracedPart
}

const rounded = (value: number): number => Math.round(value * 100) / 100

export function PartFields({ trace, part }: PartFieldsProps) {
  const { at, rotationDeg, kind } = part
  const set = (change: Partial<TracedPart>): void => trace.change((work) => withPartChanged(work, part.id, change))
  return (
    <section className={styles.box} aria-label={say('The selected part')}>
      <p>
        <b>{kindWords(kind)}</b>, {plainly(part.body.widthMm)} × {plainly(part.body.lengthMm)} mm
      </p>
      <div className={styles.three}>
        <NumberField
          label={say('From the left')}
          unit="mm"
          step={0.1}
          value={rounded(at.x)}
          onChange={(x) => set({ at: { ...at, x } })}
        />
        <NumberField
          label={say('From below')}
          unit="mm"
          step={0.1}
          value={rounded(at.y)}
          onChange={(y) => set({ at: { ...at, y } })}
        />
        <NumberField
          label={say('Turned')}
          unit="°"
          min={-360}
          max={360}
          value={rounded(rotationDeg)}
          onChange={(turned) => set({ rotationDeg: turned })}
        />
      </div>
      <div className={styles.row}>
        <Button onClick={() => set({ rotationDeg: (rotationDeg + 90) % 360 })}>
          <RotateCcw size={16} aria-hidden="true" /> {say('Quarter turn')}
        </Button>
        <Button onClick={() => trace.change((work) => withoutPart(work, part.id))}>
          <Trash2 size={16} aria-hidden="true" /> {say('Delete')}
        </Button>
        {kind === 'memory' && (
          <Button
            aria-pressed={trace.work.firstId === part.id}
            onClick={() => trace.change((work) => ({ ...work, firstId: part.id }))}
          >
            {say('Count from here')}
          </Button>
        )}
      </div>
      <div className={styles.row}>
        <NumberField
          label={say('Row of')}
          min={2}
          max={40}
          value={trace.rowCount}
          onChange={(count) => trace.setRowCount(Math.round(count))}
        />
        <Button aria-pressed={trace.tool === 'row'} onClick={() => trace.setTool('row')}>
          {say('Show the last one…')}
        </Button>
      </div>
    </section>
  )
}
