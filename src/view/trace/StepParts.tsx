/** The second step: what the next click places, what else looks like it, and the part that is selected. */
import { say } from '../../base/index.ts'
import { packageOptions } from '../stores/patternWords.ts'
import { Redo2, Search, Undo2 } from 'lucide-react'
import { Button } from '../controls/Button.tsx'
import { NumberField, SelectField } from '../controls/fields.tsx'
import { type Body, bodyWanted, coreSizes, kindOptions } from './bodies.ts'
import { PartFields } from './PartFields.tsx'
import { Proposals } from './Proposals.tsx'
import styles from './trace.module.css'
import type { Tool, TraceState } from './useTrace.ts'

const toolHints: Readonly<Record<Tool, string>> = {
  place: say('Click it on the photo: it snaps to its edges. Click a part of the same kind to select it.'),
  tab: say('Click the two lower corners of the contact tab.'),
  edge: say('Click two opposite corners of the board, without its tab.'),
  row: say('Click the middle of the last one of the row.'),
  holes: say('Click two holes on the top, then the same two on the bottom.'),
}

export function StepParts({ trace }: { readonly trace: TraceState }) {
  const { wanted, work, history, tool } = trace
  const body = bodyWanted(wanted)
  const chosen = work.parts.find(({ id }) => id === work.selectedId)
  const { kind } = wanted
  const resize = (change: Partial<Body>): void => {
    if (kind !== 'memory') trace.setWanted({ ...wanted, bodies: { ...wanted.bodies, [kind]: { ...body, ...change } } })
  }
  return (
    <div className={styles.panel}>
      <div className={styles.row}>
        <Button
          size="icon"
          aria-label={say('Undo')}
          title={say('Undo')}
          disabled={history.past.length === 0}
          onClick={trace.undo}
        >
          <Undo2 size={16} aria-hidden="true" />
        </Button>
        <Button
          size="icon"
          aria-label={say('Redo')}
          title={say('Redo')}
          disabled={history.future.length === 0}
          onClick={trace.redo}
        >
          <Redo2 size={16} aria-hidden="true" />
        </Button>
        <p className={styles.hint}>{toolHints[tool]}</p>
      </div>
      <SelectField
        label={say('The next click places')}
        value={kind}
        options={kindOptions}
        onChange={(next) => trace.setWanted({ ...wanted, kind: next })}
      />
      {kind === 'memory' ? (
        <SelectField
          label={say('Package')}
          value={wanted.package}
          options={packageOptions}
          onChange={(name) => trace.setWanted({ ...wanted, package: name })}
        />
      ) : (
        <div className={styles.three}>
          <NumberField
            label={say('Width')}
            unit="mm"
            min={0.8}
            max={120}
            step={0.1}
            value={body.widthMm}
            onChange={(widthMm) => resize({ widthMm })}
          />
          <NumberField
            label={say('Length')}
            unit="mm"
            min={0.8}
            max={120}
            step={0.1}
            value={body.lengthMm}
            onChange={(lengthMm) => resize({ lengthMm })}
          />
          <NumberField
            label={say('Height')}
            unit="mm"
            min={0}
            max={60}
            step={0.1}
            value={body.heightMm}
            onChange={(heightMm) => resize({ heightMm })}
          />
        </div>
      )}
      {kind === 'core' && (
        <div className={styles.row}>
          {coreSizes.map((size) => (
            <Button key={size} onClick={() => resize({ widthMm: size, lengthMm: size })}>
              {size} × {size} mm
            </Button>
          ))}
        </div>
      )}
      <div className={styles.row}>
        <Button disabled={chosen === undefined} onClick={() => chosen && void trace.findLikes(chosen)}>
          <Search size={16} aria-hidden="true" /> {say('Find its likes')}
        </Button>
        <Button aria-pressed={tool === 'tab'} onClick={() => trace.setTool('tab')}>
          {say('Contact tab…')}
        </Button>
        <Button aria-pressed={tool === 'edge'} onClick={() => trace.setTool('edge')}>
          {say('Board’s edge…')}
        </Button>
        {trace.hasBottom && (
          <Button
            aria-pressed={tool === 'holes'}
            onClick={() => {
              trace.setSide('top')
              trace.setTool('holes')
            }}
          >
            {say('Lay under by two holes…')}
          </Button>
        )}
      </div>
      {work.proposals.length > 0 && <Proposals trace={trace} />}
      {chosen !== undefined && work.proposals.length === 0 && <PartFields trace={trace} part={chosen} />}
    </div>
  )
}
