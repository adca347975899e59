/** One step of the plan as a line that opens: why now, the whole recipe, what it exposes, its cautions; and what became of it. */
import { minutesWords } from '../../stores/words.ts'
import { counted, joined, roughMoney } from '../../../base/index.ts'
import { TriangleAlert } from 'lucide-react'
import type { PlanStep } from '../../../plan/index.ts'
import { showTargets } from '../../actions/heat.ts'
import { lightStep } from '../../actions/plan.ts'
import { exposedInStep, worstRisk } from '../../stores/heatFacts.ts'
import { useBoard, useDesk } from '../../stores/hooks.ts'
import type { StepCautions } from '../../stores/planCautions.ts'
import { exposureKindWords, hasHeat, settingWords, stepTitle } from '../../stores/planWords.ts'
import { Exposed } from './Exposed.tsx'
import { ExposureSymbol } from './ExposureSymbol.tsx'
import styles from './plan.module.css'
import { StepButtons } from './StepButtons.tsx'

interface StepRowProps {
  readonly step: PlanStep
  readonly cautions: StepCautions
  /** The step that is to be done now stands open. */
  readonly isNow: boolean
}

export function StepRow({ step, cautions, isNow }: StepRowProps) {
  const desk = useDesk()
  const title = stepTitle(step)
  return (
    <li>
      <details open={isNow}>
        <summary
          className={styles.line}
          onMouseEnter={() => lightStep(desk, step.n)}
          onMouseLeave={() => lightStep(desk, undefined)}
          onFocus={() => lightStep(desk, step.n)}
          onBlur={() => lightStep(desk, undefined)}
          onClick={() => showTargets(desk, step.refs)}
        >
          <span className={styles.number} data-heat={hasHeat(step)} aria-hidden="true">
            {step.n}
          </span>
          <h3>
            <span className="visually-hidden">Step {step.n}: </span>
            {title}
          </h3>
          <Facts step={step} />
        </summary>
        <div className={styles.step}>
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
          <p className={styles.small}>
            {minutesWords(step.minutes)}, cost {roughMoney(step.cost)}
          </p>
          <StepButtons step={step} title={title} />
        </div>
      </details>
    </li>
  )
}

/** Minutes, the heat that is set, and one badge of risk: the worst that happens to packages beside it, and to how many. */
function Facts({ step }: { readonly step: PlanStep }) {
  const model = useBoard()?.model
  const risk = model === undefined ? undefined : worstRisk(model, step)
  return (
    <span className={styles.facts}>
      <span>
        {minutesWords(step.minutes)}
        {step.hours !== undefined && ` + ${Number(step.hours.toFixed(1))} h oven`}
      </span>
      {hasHeat(step) && <span>{`${Math.round(step.setting.airC)}\u00a0°C air`}</span>}
      {risk !== undefined && (
        <span className={styles.risk}>
          <ExposureSymbol kind={risk.kind} /> {counted(risk.count, 'package')} {exposureKindWords[risk.kind]}
        </span>
      )}
    </span>
  )
}
