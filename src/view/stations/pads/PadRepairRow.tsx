/** One torn pad or track: what it carries, what was done, where its wire runs, what is still open. */
import { PencilLine, X } from 'lucide-react'
import { useId, useState } from 'react'
import { numberWords, say } from '../../../base/index.ts'
import type { BoardModel } from '../../../board/index.ts'
import { padHurtWords, padMeaning, type PadRepair, padRepairRemarks, pathLengthMm } from '../../../case/index.ts'
import { showOnSheet } from '../../actions/show.ts'
import { Button, LinkButton } from '../../controls/Button.tsx'
import controls from '../../controls/controls.module.css'
import { Choice, SelectField, TextField } from '../../controls/fields.tsx'
import { Opening } from '../../controls/pieces.tsx'
import panel from '../../controls/panel.module.css'
import { useDesk, useScreen } from '../../stores/hooks.ts'
import { AmountField } from '../../controls/AmountField.tsx'
import { editPadRepair, readWay, removePadRepair, sayWay, sketchWay, useSketching } from './edit.ts'
import { PadMeaningLine } from './PadMeaningLine.tsx'
import own from './pads.module.css'

const remedies = [
  { value: 'not yet', words: say('Not yet') },
  { value: 'none', words: say('Left') },
  { value: 'jumper', words: say('Jumper') },
  { value: 'track', words: say('Track') },
  { value: 'new pad', words: say('New pad') },
] as const

const vias = [
  { value: 'untouched', words: say('untouched') },
  { value: 'drilled', words: say('drilled') },
  { value: 'plugged', words: say('plugged') },
] as const

const sides = [
  { value: 'top', words: say('top') },
  { value: 'bottom', words: say('bottom') },
] as const

export function PadRepairRow({ model, repair }: { readonly model: BoardModel; readonly repair: PadRepair }) {
  const desk = useDesk()
  const sketching = useSketching() === repair.id
  const drawing = useScreen(({ tool }) => tool === 'dam') && sketching
  const { id, ref, pad, hurt, remedy, via, side, path, ohm, note } = repair
  const name = [ref, pad].filter(Boolean).join(' ')
  const meaning = pad === '' ? undefined : padMeaning(model, ref, pad)
  const remarks = padRepairRemarks(model, repair)
  const wired = remedy === 'jumper' || remedy === 'track'
  return (
    <li className={own.repair} aria-label={`${name}, ${padHurtWords[hurt]}`}>
      <div className={own.head}>
        <b>
          <LinkButton onClick={() => showOnSheet(desk, { kind: 'part', id: ref })}>{name}</LinkButton>,{' '}
          {padHurtWords[hurt]}
        </b>
        <Button
          tone="quiet"
          size="icon"
          aria-label={say('Remove {name}', { name })}
          onClick={() => removePadRepair(desk, id)}
        >
          <X size={15} aria-hidden="true" />
        </Button>
      </div>
      {meaning !== undefined && <PadMeaningLine meaning={meaning} />}
      <Choice
        label={say('Done about {name}', { name })}
        labelHidden
        value={remedy}
        options={remedies}
        onChange={(chosen) => editPadRepair(desk, id, { remedy: chosen })}
      />
      {wired && (
        <div className={panel.row}>
          <Button tone={drawing ? 'strong' : 'plain'} aria-pressed={drawing} onClick={() => sketchWay(desk, repair)}>
            <PencilLine size={15} aria-hidden="true" /> {path.length < 2 ? say('Draw its way') : say('Draw it anew')}
          </Button>
          <span className={panel.quiet}>
            {drawing
              ? say('Press bend after bend; Enter ends.')
              : path.length < 2
                ? say('not drawn')
                : say('{path} mm, {side} side', { path: numberWords(Number(pathLengthMm(path).toFixed(1))), side })}
          </span>
        </div>
      )}
      {remarks.length > 0 && (
        <ul className={own.open}>
          {remarks.map((remark) => (
            <li key={remark}>{remark}</li>
          ))}
        </ul>
      )}
      <Opening summary={say('Via, measured, way typed, note')}>
        <div className={own.more}>
          <SelectField
            label={say('Via')}
            value={via}
            options={vias}
            onChange={(chosen) => editPadRepair(desk, id, { via: chosen })}
          />
          <AmountField
            label={say('End to end')}
            unit="Ω"
            value={ohm}
            onChange={(value) => editPadRepair(desk, id, { ohm: value }, true)}
          />
          <SelectField
            label={say('Side')}
            value={side}
            options={sides}
            onChange={(chosen) => editPadRepair(desk, id, { side: chosen })}
          />
          <WayField path={path} onChange={(way) => editPadRepair(desk, id, { path: way }, true)} />
          <div className={own.wide}>
            <TextField
              label={say('Note')}
              maxLength={2000}
              value={note}
              onChange={(words) => editPadRepair(desk, id, { note: words }, true)}
            />
          </div>
        </div>
      </Opening>
    </li>
  )
}

interface WayFieldProps {
  readonly path: PadRepair['path']
  readonly onChange: (path: PadRepair['path']) => void
}

/** The way by keyboard: points of the board in mm. */
function WayField({ path, onChange }: WayFieldProps) {
  const id = useId()
  const [typed, setTyped] = useState<string>()
  const way = typed === undefined ? path : readWay(typed)
  const wrong = typed !== undefined && way === undefined
  return (
    <div className={`${controls.field} ${own.wide}`}>
      <label className={controls.label} htmlFor={id}>
        {say('Way, x y in mm')}
      </label>
      <input
        id={id}
        className={controls.input}
        placeholder="40 32; 41.5 33"
        value={typed ?? sayWay(path)}
        aria-invalid={wrong}
        aria-describedby={wrong ? `${id}-wrong` : undefined}
        onChange={(event) => {
          setTyped(event.target.value)
          const read = readWay(event.target.value)
          if (read !== undefined) onChange(read)
        }}
        onBlur={() => !wrong && setTyped(undefined)}
      />
      {wrong && (
        <p className={controls.wrong} id={`${id}-wrong`}>
          {say('Two points or more, as 40 32; 41.5 33.')}
        </p>
      )}
    </div>
  )
}
