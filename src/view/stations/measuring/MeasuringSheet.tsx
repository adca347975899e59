/** The measuring sheet: the lines of every rail with its stages, one field each, filled by keyboard, voice, pedal or meter. */
import { counted } from '../../../base/index.ts'
import type { LineVerdict, Phase, Quantity } from '../../../measure/index.ts'
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
  const measured = verdicts.filter(({ measurement }) => measurement !== undefined).length
  return (
    <section className={styles.section} aria-label={quantity === 'ohms' ? 'Ohms to ground' : 'Volts'}>
      <p className={styles.quiet}>
        {measured} of {counted(verdicts.length, 'line')} measured. Enter goes on, Shift+Enter back. Type{' '}
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

/** Under power a stage shows its rail's voltage: its field stays folded until somebody wants it. */
function Group({ rail, lines, quantity, phase }: GroupProps) {
  const rails = lines.filter(({ line }) => line.line.kind === 'rail')
  const stages = lines.filter(({ line }) => line.line.kind === 'stage')
  const rows = (entries: readonly LineVerdict[]) => (
    <ol className={own.lines}>
      {entries.map((entry) => (
        <LineRow key={entry.line.line.name} entry={entry} phase={phase} />
      ))}
    </ol>
  )
  const siblings = stages.find(({ line }) => line.reference.from === 'siblings')?.line.reference.words
  return (
    <section className={own.group} aria-label={rail === undefined ? 'Stages of no rail' : `Rail ${rail}`}>
      {rows(rails)}
      {stages.length > 0 && quantity === 'ohms' && (
        <>
          <p className={own.siblings}>
            {stages.length === 1 ? 'Its stage' : 'Its stages, each at the inductor'}
            {siblings !== undefined && `: ${siblings}`}
          </p>
          {rows(stages)}
        </>
      )}
      {stages.length > 0 && quantity === 'volts' && (
        <Opening summary={`At ${counted(stages.length, 'stage')}`}>{rows(stages)}</Opening>
      )}
    </section>
  )
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
