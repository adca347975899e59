/** The plan as a list that stands: what was noted, then what is left in its order; each step keeps its number. */
import { useMemo } from 'react'
import { say } from '../../../base/index.ts'
import type { Case } from '../../../case/index.ts'
import { type PlanAnswer, stepTitle } from '../../../plan/index.ts'
import panel from '../../controls/panel.module.css'
import { usePlan } from '../../stores/hooks.ts'
import { PastRows } from './PastRows.tsx'
import { cautionsByStep } from './planCautions.ts'
import styles from './plan.module.css'
import { standingNow } from './standingNow.ts'
import { StepRow } from './StepRow.tsx'

interface StepsProps {
  readonly answer: PlanAnswer
  readonly present: Pick<Case, 'passes' | 'ticks' | 'planned'>
}

const noCautions = { full: [], fullAt: [] } as const

export function Steps({ answer, present }: StepsProps) {
  const askedOf = usePlan((plan) => plan.askedOf)
  const { past, open, dropped } = useMemo(() => standingNow(answer, present, askedOf), [answer, present, askedOf])
  const cautions = cautionsByStep(open)
  return (
    <section className={panel.section} aria-label={say('Steps of the plan')}>
      <PastRows past={past} dropped={dropped} />
      <ol className={styles.steps} aria-label={say('Steps in order')}>
        {open.map((step, i) => (
          <StepRow
            key={`${step.n} ${stepTitle(step)}`}
            step={step}
            cautions={cautions[i] ?? noCautions}
            isNow={i === 0}
          />
        ))}
      </ol>
    </section>
  )
}
