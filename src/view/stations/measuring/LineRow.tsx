/** A line of the measuring sheet: name, where to probe, what it is held against, its fields with their verdicts. */
import { say } from '../../../base/index.ts'
import { Undo2 } from 'lucide-react'
import { useId } from 'react'
import {
  lineName,
  type LineVerdict,
  lineWords,
  type MeasuringLine,
  type Phase,
  stagePointWords,
} from '../../../measure/index.ts'
import { takeBackReadings } from './measure.ts'
import { revealPoints } from './revealPoints.ts'
import { Button } from '../../controls/Button.tsx'
import { type Figure, Figured, FiguredText } from '../../figures/index.ts'
import type { Selection } from '../../sheet/index.ts'
import { useDesk, useScreen } from '../../stores/hooks.ts'
import { ReadingField } from './ReadingField.tsx'
import { VerdictMark } from './VerdictMark.tsx'
import own from './measuring.module.css'

interface LineRowProps {
  readonly entry: LineVerdict
  /** The same line in diode mode, where it is read so. */
  readonly diode: LineVerdict | undefined
  readonly phase: Phase
  /** Named by the point of its stage, which the fold around it names. */
  readonly byPoint: boolean
}

export function LineRow({ entry, diode, phase, byPoint }: LineRowProps) {
  const desk = useDesk()
  const { line, points, reference, besides } = entry.line
  const selection = selectionOf(entry.line)
  const lit = useScreen((screen) => screen.selection?.kind === selection.kind && screen.selection.id === selection.id)
  const select = (): void => {
    if (!lit) desk.screen.setState({ selection })
    revealPoints(desk, points)
  }
  const id = useId()
  const entries = diode === undefined ? [entry] : [entry, diode]
  const ofDiode = diode?.line
  return (
    <li
      className={own.line}
      data-kind={line.kind}
      data-by-point={byPoint}
      data-beside={diode?.measurement === undefined}
      data-lit={lit}
      onPointerDown={select}
    >
      <b className={own.name}>{byPoint && line.point !== undefined ? stagePointWords(line.point) : lineName(line)}</b>
      {entries.map((each) => (
        <div
          key={each.line.quantity}
          className={own.cell}
          data-quantity={each.line.quantity}
          data-alone={diode === undefined}
        >
          <ReadingField entry={each} phase={phase} describedBy={id} onFocus={select} />
          {each.measurement !== undefined && <VerdictMark verdict={each.verdict} of={figureOf(each, phase)} />}
        </div>
      ))}
      <p className={own.about} id={id}>
        {points.length > 0 && (
          <span>{pointWords(points.map(({ words }) => words).filter((words) => words !== line.name))}</span>
        )}
        {(line.kind !== 'stage' || reference.from === 'learnt') && (
          <span>
            <Figured of={figureOf(entry, phase)}>{reference.words}</Figured>
          </span>
        )}
        {besides !== undefined && <span>{besides}</span>}
        {diode !== undefined && ofDiode?.reference.from === 'learnt' && (
          <span>
            <Figured of={figureOf(diode, phase)}>{ofDiode.reference.words}</Figured>
          </span>
        )}
        {ofDiode?.besides !== undefined && <span>{ofDiode.besides}</span>}
      </p>
      {entries.map(
        (each) => each.measurement !== undefined && <Said key={each.line.quantity} entry={each} phase={phase} />,
      )}
    </li>
  )
}

const figureOf = ({ line: { line, quantity } }: LineVerdict, phase: Phase): Figure => ({
  kind: 'verdict',
  line,
  quantity,
  phase,
})

/** A supply lights its rail. */
const selectionOf = ({ line, rail }: MeasuringLine): Selection =>
  line.kind === 'stage' ? { kind: 'part', id: line.name } : { kind: 'rail', id: rail ?? line.name }

function Said({ entry, phase }: { readonly entry: LineVerdict; readonly phase: Phase }) {
  const desk = useDesk()
  const { line, quantity } = entry.line
  const meter = entry.measurement?.meter
  return (
    <div className={own.said}>
      <p>
        <FiguredText words={entry.verdict.sentence} units={['V', 'Ω', 'kΩ', 'MΩ', 'mV']} of={figureOf(entry, phase)} />
        {meter !== undefined && say(' Read by {meter}.', { meter })}
      </p>
      <Button
        tone="quiet"
        size="icon"
        aria-label={say('Take back the reading of {line}{value}', {
          line: lineWords(line),
          value: quantity === 'diode' ? say(' in diode mode') : '',
        })}
        title={say('Take this reading back')}
        onClick={() => takeBackReadings(desk, line, quantity, phase)}
      >
        <Undo2 size={15} aria-hidden="true" />
      </Button>
    </div>
  )
}

/** Numbered as on the sheet, where there are several. */
const pointWords = (words: readonly string[]): string =>
  words.length === 0
    ? say('at the stage itself')
    : words.length === 1
      ? say('at {words}', { words: words[0] ?? '' })
      : say('at {words}', { words: words.map((each, i) => `${i + 1}: ${each}`).join(', ') })
