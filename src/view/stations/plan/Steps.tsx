/** The steps that are left, in order, after what was already noted. */
import { joined, say } from '../../../base/index.ts'
import { Undo2 } from 'lucide-react'
import type { BenchTick, PassEntry, PlanAnswer } from '../../../plan/index.ts'
import { dropLastNoted } from './askPlan.ts'
import { Button } from '../../controls/Button.tsx'
import { Opening } from '../../controls/pieces.tsx'
import panel from '../../controls/panel.module.css'
import { useDesk } from '../../stores/hooks.ts'
import { cautionsByStep } from './planCautions.ts'
import { stepTitle } from '../../../plan/index.ts'
import styles from './plan.module.css'
import { StepRow } from './StepRow.tsx'

interface StepsProps {
  readonly answer: PlanAnswer
  readonly log: readonly PassEntry[]
  readonly ticks: readonly BenchTick[]
}

const noCautions = { full: [], fullAt: [] } as const

export function Steps({ answer, log, ticks }: StepsProps) {
  const cautions = cautionsByStep(answer.best.steps)
  return (
    <section className={panel.section} aria-label={say('Steps of the plan')}>
      {log.length + ticks.length > 0 && <Log log={log} ticks={ticks} />}
      <ol className={styles.steps} aria-label={say('Steps in order')}>
        {answer.best.steps.map((step, i) => (
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

function Log({ log, ticks }: { readonly log: readonly PassEntry[]; readonly ticks: readonly BenchTick[] }) {
  const desk = useDesk()
  const noted = notedInOrder(log, ticks)
  const earlier = noted.slice(0, -1)
  return (
    <div>
      <h3 className={panel.sub}>{say('Done so far')}</h3>
      {earlier.length > 0 && (
        <Opening
          summary={say('{length, plural, one {# earlier entry} other {# earlier entries}}', { length: earlier.length })}
        >
          <ul className={styles.done}>
            {earlier.map((words, i) => (
              <li key={`${i} ${words}`}>{words}</li>
            ))}
          </ul>
        </Opening>
      )}
      <ul className={styles.done}>
        <li>
          <span>{noted.at(-1)}</span>
          <Button tone="quiet" onClick={() => dropLastNoted(desk)} aria-label={say('Take back the last entry')}>
            <Undo2 size={15} aria-hidden="true" /> {say('Take back')}
          </Button>
        </li>
      </ul>
    </div>
  )
}

/** Passes, and what was ticked off before, between and after them. */
export function notedInOrder(log: readonly PassEntry[], ticks: readonly BenchTick[]): string[] {
  const after = (passes: number): string[] =>
    ticks
      .filter(({ afterPasses }) => Math.min(afterPasses, log.length) === passes)
      .map(({ action, refs, outcome }) => `${action} ${joined(refs)}: ${outcome}`)
  return [...after(0), ...log.flatMap((entry, i) => [entryWords(entry), ...after(i + 1)])]
}

const foundWords = {
  clean: say('clean'),
  wet: say('wet'),
  metal: say('metal'),
  corroded: say('corroded'),
  'torn-pad': say('torn pad'),
} as const

export function entryWords({ action, refs, outcome, peakC, found, note }: PassEntry): string {
  const head = `${action} ${joined(refs)}: ${outcome}`
  const seen = found.map(({ ref, what }) =>
    say('{ref} {what} underneath', { ref, what: joined(what.map((each) => foundWords[each])) }),
  )
  return [
    head,
    ...(peakC === undefined ? [] : [say('peak {peakC} °C', { peakC })]),
    ...seen,
    ...(note === undefined ? [] : [note]),
  ].join(', ')
}
