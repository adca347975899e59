/** A line of the measuring sheet: name, where to probe, what it is held against, the field, the verdict. */
import { Undo2 } from 'lucide-react'
import { type LineVerdict, lineKey, lineWords, type Phase } from '../../../measure/index.ts'
import { takeBackReadings } from '../../actions/measure.ts'
import { revealPoints } from '../../actions/revealPoints.ts'
import { Button } from '../../controls/Button.tsx'
import type { Selection } from '../../sheet/index.ts'
import { useDesk, useScreen } from '../../stores/hooks.ts'
import { ReadingField } from './ReadingField.tsx'
import { VerdictMark } from './VerdictMark.tsx'
import own from './measuring.module.css'

interface LineRowProps {
  readonly entry: LineVerdict
  readonly phase: Phase
}

export function LineRow({ entry, phase }: LineRowProps) {
  const desk = useDesk()
  const { line, quantity, points, reference, besides } = entry.line
  const selection: Selection = { kind: line.kind === 'rail' ? 'rail' : 'part', id: line.name }
  const lit = useScreen((screen) => screen.selection?.kind === selection.kind && screen.selection.id === line.name)
  const select = (): void => {
    if (!lit) desk.screen.setState({ selection })
    revealPoints(desk, points)
  }
  const id = `about-${quantity}-${lineKey(line).replaceAll(/\W/g, '-')}`
  const measured = entry.measurement !== undefined
  return (
    <li className={own.line} data-kind={line.kind} data-lit={lit} onPointerDown={select}>
      <b className={own.name}>{line.name}</b>
      <ReadingField entry={entry} phase={phase} describedBy={id} onFocus={select} />
      <VerdictMark verdict={entry.verdict} />
      <p className={own.about} id={id}>
        {points.length > 0 && (
          <span>{pointWords(points.map(({ words }) => words).filter((words) => words !== line.name))}</span>
        )}
        {(line.kind === 'rail' || reference.from === 'learnt') && <span>{reference.words}</span>}
        {besides !== undefined && <span>{besides}</span>}
      </p>
      {measured && (
        <div className={own.said}>
          <p>
            {entry.verdict.sentence}
            {entry.measurement?.meter !== undefined && ` Read by ${entry.measurement.meter}.`}
          </p>
          <Button
            tone="quiet"
            size="icon"
            aria-label={`Take back the reading of ${lineWords(line)}`}
            title="Take this reading back"
            onClick={() => takeBackReadings(desk, line, quantity, phase)}
          >
            <Undo2 size={15} aria-hidden="true" />
          </Button>
        </div>
      )}
    </li>
  )
}

/** Numbered as on the sheet, where there are several. */
const pointWords = (words: readonly string[]): string =>
  words.length === 0
    ? 'at the stage itself'
    : words.length === 1
      ? `at ${words[0] ?? ''}`
      : `at ${words.map((each, i) => `${i + 1}: ${each}`).join(', ')}`
