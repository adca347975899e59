/** The measuring sheet: every rail with the points of its stages, one field each, filled by keyboard, voice, pedal or meter. */
import { counted, someOf } from '../../../base/index.ts'
import {
  isAsked,
  lineKey,
  type LineVerdict,
  type Phase,
  type Quantity,
  type StagePoint,
  stagePointWords,
  type VerdictKind,
} from '../../../measure/index.ts'
import { Opening } from '../../controls/pieces.tsx'
import styles from '../../panels/why.module.css'
import { useBoard, usePresent } from '../../stores/hooks.ts'
import { verdictsOf } from '../../stores/measuring.ts'
import { LineRow } from './LineRow.tsx'
import own from './measuring.module.css'

interface MeasuringSheetProps {
  readonly quantity: Quantity
  readonly phase: Phase
}

export function MeasuringSheet({ quantity, phase }: MeasuringSheetProps) {
  const board = useBoard()
  const present = usePresent()
  if (board === undefined || present === undefined) return undefined
  const verdicts = verdictsOf(board.model, present, quantity, phase)
  if (verdicts.length === 0) {
    return <p className={styles.quiet}>The board’s description names no rail and no power stage to measure.</p>
  }
  const asked = verdicts.filter(({ line }) => (quantity === 'ohms' ? isAsked(line.line) : line.line.kind === 'rail'))
  const measured = asked.filter(({ measurement }) => measurement !== undefined).length
  return (
    <section className={styles.section} aria-label={quantity === 'ohms' ? 'Ohms to ground' : 'Volts'}>
      <p className={styles.quiet}>
        {measured} of {counted(asked.length, 'line')} measured. Enter goes on, Shift+Enter back. Type{' '}
        {quantity === 'ohms' ? '0.38, 380m, 2k2, OL or short' : '12,1, 870 mV or 3V3'}.
      </p>
      {groupsOf(verdicts).map(({ rail, lines }) => (
        <Group key={rail ?? ''} rail={rail} lines={lines} quantity={quantity} phase={phase} />
      ))}
    </section>
  )
}

interface GroupProps extends MeasuringSheetProps {
  readonly rail: string | undefined
  readonly lines: readonly LineVerdict[]
}

function Group({ rail, lines, quantity, phase }: GroupProps) {
  const rails = lines.filter(({ line }) => line.line.kind === 'rail')
  const points = pointsOf(lines)
  return (
    <section className={own.group} aria-label={rail === undefined ? 'Stages of no rail' : `Rail ${rail}`}>
      <Rows lines={rails} phase={phase} />
      {points.map(([point, stages]) => (
        <Opening key={point} summary={pointSummary(point, stages)} open={quantity === 'ohms' && point === 'input'}>
          <Rows lines={stages} phase={phase} />
        </Opening>
      ))}
    </section>
  )
}

function Rows({ lines, phase }: { readonly lines: readonly LineVerdict[]; readonly phase: Phase }) {
  return (
    <ol className={own.lines}>
      {lines.map((entry) => (
        <LineRow key={lineKey(entry.line.line)} entry={entry} phase={phase} />
      ))}
    </ol>
  )
}

/** The same point of all stages together, as it is read at the bench: one pad after the other, held against each other. */
function pointsOf(lines: readonly LineVerdict[]): [StagePoint, LineVerdict[]][] {
  const points = new Map<StagePoint, LineVerdict[]>()
  for (const each of lines) {
    const { point } = each.line.line
    if (point !== undefined) points.set(point, [...(points.get(point) ?? []), each])
  }
  return [...points]
}

const WELL: readonly VerdictKind[] = ['not-measured', 'alike', 'in-range', 'usual', 'no-range']

function pointSummary(point: StagePoint, stages: readonly LineVerdict[]): string {
  const words = stagePointWords(point)
  const read = stages.filter(({ measurement }) => measurement !== undefined).length
  const off = stages.filter(({ verdict }) => !WELL.includes(verdict.kind)).map(({ line }) => line.line.name)
  const found = off.length === 0 ? '' : `; look at ${someOf(off, 4)}`
  return `${words.slice(0, 1).toUpperCase()}${words.slice(1)}: ${read} of ${counted(stages.length, 'stage')} read${found}`
}

function groupsOf(verdicts: readonly LineVerdict[]): { rail: string | undefined; lines: LineVerdict[] }[] {
  const groups = new Map<string | undefined, LineVerdict[]>()
  for (const verdict of verdicts) {
    const known = groups.get(verdict.line.rail)
    if (known === undefined) groups.set(verdict.line.rail, [verdict])
    else known.push(verdict)
  }
  return [...groups].map(([rail, lines]) => ({ rail, lines }))
}
