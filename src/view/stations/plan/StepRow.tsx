/** One step of the plan: what to do, why now, with which heat, what it exposes, its cautions; and what became of it. */
import { minutesWords } from '../../stores/words.ts'
import { joined, roughMoney } from '../../../base/index.ts'
import { TriangleAlert } from 'lucide-react'
import type { PlanStep } from '../../../plan/index.ts'
import { showTargets } from '../../actions/heat.ts'
import { lightStep } from '../../actions/plan.ts'
import { exposedInStep } from '../../stores/heatFacts.ts'
import { useDesk } from '../../stores/hooks.ts'
import type { StepCautions } from '../../stores/planCautions.ts'
import { hasHeat, settingWords, stepTitle } from '../../stores/planWords.ts'
import { Exposed } from './Exposed.tsx'
import styles from './plan.module.css'
import { StepButtons } from './StepButtons.tsx'

interface StepRowProps {
  readonly step: PlanStep
  readonly cautions: StepCautions
}

export function StepRow({ step, cautions }: StepRowProps) {
  const desk = useDesk()
  const title = stepTitle(step)
  return (
    <li>
      <span className={styles.number} data-heat={hasHeat(step)} aria-hidden="true">
        {step.n}
      </span>
      <div className={styles.step}>
        <div className={styles.stepHead}>
          <h3>
            <span className="visually-hidden">Step {step.n}: </span>
            <button
              type="button"
              className={styles.title}
              title="Show it on the sheet"
              onMouseEnter={() => lightStep(desk, step.n)}
              onMouseLeave={() => lightStep(desk, undefined)}
              onFocus={() => lightStep(desk, step.n)}
              onBlur={() => lightStep(desk, undefined)}
              onClick={() => showTargets(desk, step.refs)}
            >
              {title}
            </button>
          </h3>
          <span>
            {minutesWords(step.minutes)}
            {step.hours !== undefined && ` + ${Number(step.hours.toFixed(1))} h in the oven`}, cost{' '}
            {roughMoney(step.cost)}
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
            {cautions.full.map((caution) => (
              <li key={caution}>
                <TriangleAlert size={14} aria-hidden="true" /> {caution}
              </li>
            ))}
            {cautions.again.length > 0 && (
              <li>
                <TriangleAlert size={14} aria-hidden="true" />{' '}
                <span>
                  Here too (in full at {cautions.fullAt.length === 1 ? 'step' : 'steps'}{' '}
                  {joined(cautions.fullAt.map(String))}): {cautions.again.join('; ')}.
                </span>
              </li>
            )}
          </ul>
        )}
        <StepButtons step={step} title={title} />
      </div>
    </li>
  )
}
