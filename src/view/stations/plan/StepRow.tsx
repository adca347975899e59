/** One step of the plan: what to do, why now, with which heat, what it exposes, its cautions; and what became of it. */
import { TriangleAlert } from 'lucide-react'
import type { PlanStep } from '../../../plan/index.ts'
import { lightStep } from '../../actions/plan.ts'
import { money } from '../../panels/LiftList.tsx'
import { exposedInStep } from '../../stores/heatFacts.ts'
import { useDesk } from '../../stores/hooks.ts'
import { hasHeat, minutesWords, settingWords, stepTitle } from '../../stores/planWords.ts'
import { Exposed } from './Exposed.tsx'
import styles from './plan.module.css'
import { StepButtons } from './StepButtons.tsx'

export function StepRow({ step }: { readonly step: PlanStep }) {
  const desk = useDesk()
  const title = stepTitle(step)
  return (
    <li onMouseEnter={() => lightStep(desk, step.n)} onMouseLeave={() => lightStep(desk, undefined)}>
      <span className={styles.number} data-heat={hasHeat(step)} aria-hidden="true">
        {step.n}
      </span>
      <div className={styles.step}>
        <div className={styles.stepHead}>
          <h3>
            <span className="visually-hidden">Step {step.n}: </span>
            {title}
          </h3>
          <span>
            {minutesWords(step.minutes)}
            {step.hours !== undefined && ` + ${Number(step.hours.toFixed(1))} h in the oven`}, cost {money(step.cost)}
          </span>
        </div>
        <p className={styles.small}>{step.why}</p>
        {hasHeat(step) && (
          <>
            <p className={styles.setting}>{settingWords(step.setting)}</p>
            <Exposed parts={exposedInStep(step)} />
          </>
        )}
        {step.cautions.length > 0 && (
          <ul className={styles.cautions} aria-label={`Cautions at step ${step.n}`}>
            {step.cautions.map((caution) => (
              <li key={caution}>
                <TriangleAlert size={14} aria-hidden="true" /> {caution}
              </li>
            ))}
          </ul>
        )}
        <StepButtons step={step} title={title} />
      </div>
    </li>
  )
}
