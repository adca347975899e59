/** One step of the plan as a line that opens: why now, the whole recipe, what it exposes, its cautions; and what became of it. */
import { minutesWords } from '../../stores/words.ts'
import { joined, say } from '../../../base/index.ts'
import { ChevronRight, TriangleAlert } from 'lucide-react'
import { heatLines } from '../../../heat/index.ts'
import { type PlanStep, stepTitle } from '../../../plan/index.ts'
import { showTargets } from './askHeat.ts'
import { lightStep } from './askPlan.ts'
import { exposedInStep, worstRisk } from './heatFacts.ts'
import { useBoard, useDesk } from '../../stores/hooks.ts'
import { FiguredText } from '../../figures/index.ts'
import { Opening } from '../../controls/pieces.tsx'
import { useRoughMoney } from '../../stores/money.ts'
import { headOf, headsInSight, type StepCautions } from './planCautions.ts'
import { hasHeat, recipeOf, riskWords } from './planWords.ts'
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
  const money = useRoughMoney()
  const title = stepTitle(step)
  const { lines, check } = recipeOf(step.why)
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
            <span className="visually-hidden">{say('Step {n}: ', { n: step.n })}</span>
            {title}
            {step.isNew === true && <span className={styles.fresh}>{say('new')}</span>}
          </h3>
          <Facts step={step} />
          <ChevronRight className={styles.chevron} size={16} aria-hidden="true" />
        </summary>
        <div className={styles.step}>
          {step.cautions.length > 0 && <Cautions n={step.n} all={step.cautions} cautions={cautions} />}
          <Recipe n={step.n} lines={lines} />
          {hasHeat(step) && (
            <>
              <ul className={styles.card} aria-label={say('Card of step {n}', { n: step.n })}>
                {heatLines(step).map((line) => (
                  <li key={line}>
                    <FiguredText words={line} of={{ kind: 'setting', n: step.n }} />
                  </li>
                ))}
              </ul>
              <Exposed n={step.n} parts={exposedInStep(step)} />
            </>
          )}
          <StepButtons step={step} title={title} />
          <Opening summary={check === undefined ? say('What it costs') : say('When it is done')}>
            {check !== undefined && (
              <p className={styles.small}>
                <FiguredText words={check} of={{ kind: 'recipe', n: step.n }} />
              </p>
            )}
            <p className={styles.small}>
              <FiguredText
                words={say('{minutes} at the bench.', { minutes: minutesWords(step.minutes) })}
                numbers={[minutesWords(step.minutes)]}
                of={{ kind: 'step-minutes', n: step.n }}
              />
            </p>
            <p className={styles.small}>
              <FiguredText
                words={say('About {cost}, work and materials.', { cost: money(step.cost) })}
                numbers={[money(step.cost)]}
                of={{ kind: 'step-cost', n: step.n }}
              />
            </p>
          </Opening>
        </div>
      </details>
    </li>
  )
}

function Recipe({ n, lines }: { readonly n: number; readonly lines: readonly string[] }) {
  return lines.map((line) => (
    <p key={line} className={styles.small}>
      <FiguredText words={line} of={{ kind: 'recipe', n }} />
    </p>
  ))
}

/** What is dangerous at this step in one line, always in sight; the sentences in full behind it. */
function Cautions({ n, all, cautions }: { n: number; all: readonly string[]; cautions: StepCautions }) {
  const { full, fullAt } = cautions
  return (
    <details className={styles.cautions} aria-label={say('Cautions at step {n}', { n })}>
      <summary>
        <TriangleAlert size={14} aria-hidden="true" /> {headsInSight(full.length > 0 ? full : all)}
      </summary>
      <ul>
        {full.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
        {fullAt.length > 0 && (
          <li>
            {say('{value}. In full at {length, plural, one {step} other {steps}} {fullAt}.', {
              value: all
                .filter((caution) => !full.includes(caution))
                .map(headOf)
                .join('. '),
              length: fullAt.length,
              fullAt: joined(fullAt.map(String)),
            })}
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
  const risky = risk === undefined ? '' : riskWords(risk)
  return (
    <span className={styles.facts}>
      <span>
        {minutesWords(step.minutes)}
        {step.hours !== undefined && say(' + {hours} h oven', { hours: Number(step.hours.toFixed(1)) })}
      </span>
      {hasHeat(step) && <span>{say('air {airC}\u00a0°C', { airC: Math.round(step.setting.airC) })}</span>}
      {risk !== undefined && (
        <span className={styles.risk} title={risky}>
          <ExposureSymbol kind={risk.kind} />
          <span aria-hidden="true">{risk.count}</span>
          <span className="visually-hidden">{risky}</span>
        </span>
      )}
    </span>
  )
}
