/** One step of the plan as a line that opens: why now, the whole recipe, what it exposes, its cautions; and what became of it. */
import { minutesWords } from '../../stores/words.ts'
import { counted, joined, roughMoney } from '../../../base/index.ts'
import { ChevronRight, TriangleAlert } from 'lucide-react'
import { heatLines } from '../../../heat/index.ts'
import { type PlanStep, stepTitle } from '../../../plan/index.ts'
import { showTargets } from './askHeat.ts'
import { lightStep } from './askPlan.ts'
import { exposedInStep, worstRisk } from './heatFacts.ts'
import { useBoard, useDesk } from '../../stores/hooks.ts'
import { headOf, type StepCautions } from './planCautions.ts'
import { exposureKindWords, hasHeat } from './planWords.ts'
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
          <ChevronRight className={styles.chevron} size={16} aria-hidden="true" />
        </summary>
        <div className={styles.step}>
          <p className={styles.lines}>{step.why}</p>
          {hasHeat(step) && (
            <>
              <p className={styles.setting}>{heatLines(step).join(' ')}</p>
              <Exposed parts={exposedInStep(step)} />
            </>
          )}
          {step.cautions.length > 0 && <Cautions n={step.n} all={step.cautions} cautions={cautions} />}
          <p className={styles.small}>
            {minutesWords(step.minutes)}, cost {roughMoney(step.cost)}
          </p>
          <StepButtons step={step} title={title} />
        </div>
      </details>
    </li>
  )
}

/** What is dangerous at this step in one line, always in sight; the sentences in full behind it. */
function Cautions({ n, all, cautions }: { n: number; all: readonly string[]; cautions: StepCautions }) {
  const { full, fullAt } = cautions
  return (
    <details className={styles.cautions} aria-label={`Cautions at step ${n}`}>
      <summary>
        <TriangleAlert size={14} aria-hidden="true" /> {all.map(headOf).join('. ')}.
      </summary>
      <ul>
        {full.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
        {fullAt.length > 0 && (
          <li>
            The others stand in full at {fullAt.length === 1 ? 'step' : 'steps'} {joined(fullAt.map(String))}.
          </li>
        )}
      </ul>
    </details>
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
