/** What differs from usual, and whether the suspects weigh it. */
import { say } from '../../../base/index.ts'
import { CircleAlert, Scale } from 'lucide-react'
import { type BenchPhase, type MachineRemark, machineRemarks } from '../../../case/index.ts'
import { usePresent, useRetest, useTally } from '../../stores/hooks.ts'
import own from './benchMachine.module.css'

/** A habit needs no more words than its source. */
const kinds: Readonly<Record<MachineRemark['kind'], string>> = {
  weighed: say('Weighed by the suspects; '),
  'not-modelled': '',
  habit: '',
}

interface MachineRemarksProps {
  readonly phase: BenchPhase
  /** Those of soak tests alone; else all others. */
  readonly ofSoak?: boolean
}

export function MachineRemarks({ phase, ofSoak = false }: MachineRemarksProps) {
  const present = usePresent()
  const tally = useTally()
  const retest = useRetest()
  if (present === undefined) return undefined
  const remarks = machineRemarks(present, phase, (phase === 'before' ? tally : retest) !== undefined)
  const told = remarks.filter(({ about }) => (about === 'soak') === ofSoak)
  return (
    <ul
      className={own.remarks}
      aria-label={ofSoak ? say('Unlike usual, soak tests') : say('Unlike usual')}
      aria-live="polite"
    >
      {told.map(({ fact, means, kind, source }) => (
        <li key={fact} data-kind={kind}>
          {kind === 'weighed' ? <Scale size={15} aria-hidden="true" /> : <CircleAlert size={15} aria-hidden="true" />}
          <p>
            <b>{fact}</b> {means}{' '}
            <small>
              {kinds[kind]}
              {source}
            </small>
          </p>
        </li>
      ))}
    </ul>
  )
}
