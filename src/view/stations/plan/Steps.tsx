/** The steps that are left, in order, after what was already noted. */
import { joined } from '../../../base/index.ts'
import { Undo2 } from 'lucide-react'
import type { PassEntry, PlanAnswer } from '../../../plan/index.ts'
import { dropLastPass } from '../../actions/plan.ts'
import { Button } from '../../controls/Button.tsx'
import panel from '../../panels/why.module.css'
import { useDesk } from '../../stores/hooks.ts'
import { cautionsByStep } from '../../stores/planCautions.ts'
import { stepTitle } from '../../stores/planWords.ts'
import styles from './plan.module.css'
import { StepRow } from './StepRow.tsx'

interface StepsProps {
  readonly answer: PlanAnswer
  readonly log: readonly PassEntry[]
}

const noCautions = { full: [], again: [], fullAt: [] } as const

export function Steps({ answer, log }: StepsProps) {
  const cautions = cautionsByStep(answer.best.steps)
  return (
    <section className={panel.section} aria-label="Steps of the plan">
      {log.length > 0 && <Log log={log} />}
      <ol className={styles.steps} aria-label="Steps in order">
        {answer.best.steps.map((step, i) => (
          <StepRow
            key={`${step.n} ${stepTitle(step)}`}
            step={step}
            cautions={cautions[i] ?? noCautions}
            isNow={i === 0}
          />
        ))}
      </ol>
      <p className={panel.quiet}>{answer.best.optimality.sentence}</p>
    </section>
  )
}

function Log({ log }: { readonly log: readonly PassEntry[] }) {
  const desk = useDesk()
  return (
    <div>
      <h3 className={panel.sub}>Done so far</h3>
      <ul className={styles.done}>
        {log.map((entry, i) => (
          <li key={`${i} ${entry.refs.join()}`}>
            <span>{entryWords(entry)}</span>
            {i === log.length - 1 && (
              <Button tone="quiet" onClick={() => dropLastPass(desk)} aria-label="Take back the last entry">
                <Undo2 size={15} aria-hidden="true" /> Take back
              </Button>
            )}
          </li>
        ))}
      </ul>
    </div>
  )
}

const foundWords = { clean: 'clean', wet: 'wet', corroded: 'corroded', 'torn-pad': 'torn pad' } as const

export function entryWords({ action, refs, outcome, peakC, found, note }: PassEntry): string {
  const head = `${action} ${joined(refs)}: ${outcome}`
  const seen = found.map(({ ref, what }) => `${ref} ${joined(what.map((each) => foundWords[each]))} underneath`)
  return [
    head,
    ...(peakC === undefined ? [] : [`peak ${peakC} °C`]),
    ...seen,
    ...(note === undefined ? [] : [note]),
  ].join(', ')
}
