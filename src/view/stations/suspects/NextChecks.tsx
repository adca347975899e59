/** Next checks: what to look at or measure before anything is lifted, what each tells, and what was done already. */
import { joined, say } from '../../../base/index.ts'
import { TriangleAlert } from 'lucide-react'
import { useId, useState } from 'react'
import type { RankedCheck, RankedChecks, ToldOutcome } from '../../../suspects/index.ts'
import { answerCheck, goMeasure, showTarget, targetOf } from './nextChecks.ts'
import { Button } from '../../controls/Button.tsx'
import { Bar, Opening } from '../../controls/pieces.tsx'
import { FiguredText, isWashTold } from '../../figures/index.ts'
import { useDesk, useNextChecks, useResults, useTally } from '../../stores/hooks.ts'
import { useRoughMoney } from '../../stores/money.ts'
import { percent } from '../../stores/words.ts'
import { DoneChecks } from './DoneChecks.tsx'
import styles from './nextChecks.module.css'
import { useLight } from './useLight.ts'
import why from '../../controls/panel.module.css'

const FIRST_SHOWN = 1
const MORE_SHOWN = 10
/** Below so many bits a check is not worth the list. */
const WORTH_BITS = 0.001

export function NextChecks() {
  const headingId = useId()
  const tally = useTally()
  const { state, ranked } = useNextChecks()
  if (tally === undefined) return undefined
  return (
    <section className={why.section} aria-labelledby={headingId} aria-busy={state === 'working'}>
      <div className={why.heading}>
        <h2 className={why.sub} id={headingId}>
          {say('Next checks')}
        </h2>
      </div>
      {state === 'failed' && (
        <p className={why.quiet}>{say('The checks could not be ranked. Save the case and load the page again.')}</p>
      )}
      {ranked === undefined && state !== 'failed' && (
        <p className={why.quiet}>{say('Looking for what would save most.')}</p>
      )}
      {ranked !== undefined && <Ranked ranked={ranked} />}
      <DoneChecks />
    </section>
  )
}

function Ranked({ ranked }: { readonly ranked: RankedChecks }) {
  const [shown, setShown] = useState(FIRST_SHOWN)
  const worth = oneOfAKindFirst(ranked.checks.filter((check) => check.bits >= WORTH_BITS))
  const [best] = worth
  if (best === undefined) {
    return (
      <p className={why.quiet}>
        {ranked.waiting ?? say('What to lift is as good as settled: no check is worth its minutes for that.')}
      </p>
    )
  }
  const more = Math.min(MORE_SHOWN, worth.length - shown)
  return (
    <>
      <ol className={styles.checks} aria-label={say('Next checks, best first')}>
        {worth.slice(0, shown).map((check, at) => (
          <Check
            key={`${check.check} ${check.at}`}
            check={check}
            best={savesPerMinute(best)}
            cautionIsAbove={worth.slice(0, at).some(({ caution }) => caution === check.caution)}
          />
        ))}
      </ol>
      {more > 0 && (
        <Button tone="quiet" onClick={() => setShown(shown + more)}>
          {say('Show {more} more', { more })}
        </Button>
      )}
      {ranked.waiting !== undefined && <p className={why.quiet}>{ranked.waiting}</p>}
      <Opening summary={say('How they are ranked')}>
        <How ranked={ranked} />
      </Opening>
    </>
  )
}

/** The same check at another lane of the same part tells much of the same: it comes after all others. */
function oneOfAKindFirst(checks: readonly RankedCheck[]): RankedCheck[] {
  const met = new Set<string>()
  const alike: RankedCheck[] = []
  const first = checks.filter((check) => {
    const kind = `${check.check} ${check.refs.join()}`
    if (check.lanes.length > 0 && met.has(kind)) {
      alike.push(check)
      return false
    }
    met.add(kind)
    return true
  })
  return [...first, ...alike]
}

interface CheckProps {
  readonly check: RankedCheck
  readonly best: number
  /** An earlier row says the same caution in sight. */
  readonly cautionIsAbove: boolean
}

function Check({ check, best, cautionIsAbove }: CheckProps) {
  const desk = useDesk()
  const questionId = useId()
  const target = targetOf(check)
  const row = useLight(target)
  const washMayDo = useResults(({ assessment }) => assessment?.suspects.parts.some(isWashTold) === true)
  return (
    <li className={styles.check} ref={row}>
      <p className={styles.question} id={questionId}>
        {check.question}
      </p>
      <div className={styles.worth}>
        <Bar share={best > 0 ? Math.min(1, savesPerMinute(check) / best) : 0} />
        <span>
          <Saving check={check} />
        </span>
      </div>
      {check.caution !== undefined && !cautionIsAbove && <CheckCaution words={check.caution} />}
      <div className={why.row}>
        <Answers check={check} questionId={questionId} />
        {target !== undefined && (
          <Button tone="quiet" aria-describedby={questionId} onClick={() => showTarget(desk, check)}>
            {say('Show it')}
          </Button>
        )}
      </div>
      {check.ifFound !== undefined && check.ifNot !== undefined && (
        <Opening summary={say('What changes')}>
          <dl className={styles.outcomes}>
            <Outcome words={say('If so')} outcome={check.ifFound} check={check} />
            <Outcome words={say('If not')} outcome={check.ifNot} check={check} />
          </dl>
          {washMayDo && (
            <p className={why.quiet}>{say('Chances of being at fault: they include what a wash may do.')}</p>
          )}
          {check.caution !== undefined && cautionIsAbove && <CheckCaution words={check.caution} />}
        </Opening>
      )}
    </li>
  )
}

const CheckCaution = ({ words }: { readonly words: string }) => (
  <p className={styles.caution}>
    <TriangleAlert size={15} aria-hidden="true" />
    <span>
      <span className="visually-hidden">{say('Caution: ')}</span>
      {words}
    </span>
  </p>
)

function Answers({ check, questionId }: { readonly check: RankedCheck; readonly questionId: string }) {
  const desk = useDesk()
  if (check.entry === 'measuring sheet') {
    return (
      <Button aria-describedby={questionId} onClick={() => goMeasure(desk, check)}>
        {say('Measure it')}
      </Button>
    )
  }
  return (
    <>
      <Button aria-describedby={questionId} onClick={() => answerCheck(desk, check, true)}>
        {say('Found')}
      </Button>
      <Button aria-describedby={questionId} onClick={() => answerCheck(desk, check, false)}>
        {say('Nothing found')}
      </Button>
    </>
  )
}

interface OutcomeProps {
  readonly words: string
  readonly outcome: ToldOutcome
  readonly check: RankedCheck
}

function Outcome({ words, outcome, check: { check, at } }: OutcomeProps) {
  const figure = { kind: 'check', check, at } as const
  return (
    <>
      <dt>
        <FiguredText words={`${words}, ${percent(outcome.probability)}`} of={figure} />
      </dt>
      <dd>
        <FiguredText words={outcome.sentence.replaceAll(' %', '\u00a0%')} of={figure} />
      </dd>
    </>
  )
}

const savesPerMinute = ({ saves = 0, minutes }: RankedCheck): number => saves / minutes

function Saving({ check: { check, at, minutes, saves = 0 } }: { readonly check: RankedCheck }) {
  const money = useRoughMoney()
  if (saves < 0.5) return say('{minutes} min, saves little', { minutes })
  return (
    <FiguredText
      words={say('{minutes} min, saves about {money}', { minutes, money: money(saves) })}
      numbers={[money(saves)]}
      of={{ kind: 'check', check, at }}
    />
  )
}

function How({ ranked }: { readonly ranked: RankedChecks }) {
  return (
    <div className={why.working}>
      <p>
        {say(
          'By what each saves a minute: what the card costs less, on average, once its outcome is known. In doubt are {about}. The same check at one more lane of a part tells much of the same and comes last.',
          { about: joined(ranked.about) },
        )}
      </p>
      <p>{say('How surely each check finds what it looks for is common practice, not measured.')}</p>
      {ranked.leftOut.length > 0 && <p>{say('Left out: {leftOut}.', { leftOut: ranked.leftOut.join('; ') })}</p>}
    </div>
  )
}
