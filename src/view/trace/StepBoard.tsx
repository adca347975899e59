/** The last step: supplies and a name, and the board that they make of what was traced. */
import { type ReactNode, useMemo, useState } from 'react'
import { type Fault, say } from '../../base/index.ts'
import { packageBits, outlineNamed, patternLimits, type PatternSupply, usualSupplies } from '../../board/index.ts'
import { boardFromTrace, traceUntold } from '../../trace/index.ts'
import { beginOnBoard, fromStart } from '../actions/open.ts'
import { Button } from '../controls/Button.tsx'
import { TextField } from '../controls/fields.tsx'
import { useDesk } from '../stores/hooks.ts'
import { faultWords } from '../stores/patternWords.ts'
import styles from './trace.module.css'
import type { TraceState } from './useTrace.ts'
import { outlineOf, type Work } from './work.ts'

/** The form of supplies, which the dialog of the start hands in. */
export type SuppliesForm = (form: {
  readonly supplies: readonly PatternSupply[]
  readonly faults: readonly Fault[]
  readonly onChange: (supplies: readonly PatternSupply[]) => void
}) => ReactNode

interface StepBoardProps {
  readonly trace: TraceState
  readonly freeName: string
  readonly suppliesForm: SuppliesForm
}

export function StepBoard({ trace, freeName, suppliesForm }: StepBoardProps) {
  const desk = useDesk()
  const { work, board } = trace
  const [name, setName] = useState('')
  const [typed, setTyped] = useState<readonly PatternSupply[]>()
  const supplies = typed ?? suppliesFor(work)
  const made = useMemo(
    () =>
      boardFromTrace({
        name: name.trim() === '' ? freeName : name.trim(),
        outline: outlineOf(board, work),
        parts: work.parts,
        supplies,
        firstId: work.firstId,
      }),
    [name, freeName, board, work, supplies],
  )
  const counts = (['memory', 'power-stage'] as const).map(
    (kind) => work.parts.filter((part) => part.kind === kind).length,
  )
  return (
    <div className={styles.panel}>
      <TextField
        label={say('Name of the board')}
        placeholder={freeName}
        maxLength={patternLimits.nameCharacters}
        value={name}
        onChange={setName}
      />
      <p className={styles.hint}>
        {say(
          'Traced: {counts, plural, one {# memory package} other {# memory packages}}, {counts2, plural, one {# power stage} other {# power stages}}. Stages go to the supplies in the order of their refs.',
          { counts: counts[0] ?? 0, counts2: counts[1] ?? 0 },
        )}
      </p>
      {suppliesForm({ supplies, faults: made.ok ? [] : made.faults, onChange: setTyped })}
      {!made.ok && (
        <ul className={styles.faults} role="alert">
          {made.faults.slice(0, 8).map((fault) => (
            <li key={`${fault.path} ${fault.found}`}>{faultWords(fault)}</li>
          ))}
        </ul>
      )}
      <Button
        tone="strong"
        disabled={!made.ok}
        onClick={() => made.ok && fromStart(desk, (at) => beginOnBoard(desk, made.value.description, at, traceUntold))}
      >
        {say('Make the board')}
      </Button>
    </div>
  )
}

/** As is usual for the packages that were traced, the first supply taking what stages the others leave. */
function suppliesFor({ parts }: Work): PatternSupply[] {
  const stages = parts.filter(({ kind }) => kind === 'power-stage').length
  const memories = parts.filter(({ kind }) => kind === 'memory')
  const name = memories[0]?.package ?? '180-ball'
  const usual = usualSupplies(name, Math.max(1, memories.length) * packageBits(outlineNamed(name)))
  let left = stages
  const others = usual.slice(1).map((supply) => {
    const own = Math.min(supply.stages, Math.max(0, left - 1))
    left -= own
    return { ...supply, stages: own }
  })
  const [first] = usual
  return first === undefined ? others : [{ ...first, stages: left }, ...others]
}
