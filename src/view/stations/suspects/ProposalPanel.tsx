/** What to do first and what then depends on what is seen: the cheapest plan of remedies, with other ways to begin beside it. */
import { useId } from 'react'
import { minutesWords, say } from '../../../base/index.ts'
import { endingMeans, type ProposedPlan, proposedWords, type RemedyProposal } from '../../../suspects/index.ts'
import { CautionBox, Opening } from '../../controls/pieces.tsx'
import { useShortsFirst } from '../../stores/measuring.ts'
import { useNextChecks, useTally } from '../../stores/hooks.ts'
import { useRoughMoney } from '../../stores/money.ts'
import { percent } from '../../stores/words.ts'
import styles from './proposal.module.css'
import why from '../../controls/panel.module.css'

export function ProposalPanel() {
  const headingId = useId()
  const tally = useTally()
  const { state, proposal } = useNextChecks()
  const shorts = useShortsFirst()
  if (tally === undefined) return undefined
  return (
    <section className={why.section} aria-labelledby={headingId} aria-busy={state === 'working'}>
      <div className={why.heading}>
        <h2 className={why.sub} id={headingId}>
          {say('What to do first')}
        </h2>
      </div>
      {shorts !== undefined && (
        <CautionBox title={shorts.what} about={say('Look here before any heat')} reasons={[shorts.todo]} />
      )}
      {proposal === undefined && state !== 'failed' && <p className={why.quiet}>{say('Comparing ways to begin.')}</p>}
      {state === 'failed' && (
        <p className={why.quiet}>{say('The ways could not be compared. Save the case and load the page again.')}</p>
      )}
      {proposal !== undefined && <Proposed proposal={proposal} />}
    </section>
  )
}

function Proposed({ proposal }: { readonly proposal: RemedyProposal }) {
  const { others } = proposal
  const money = useRoughMoney()
  return (
    <>
      <Steps plan={proposal} />
      {proposal.works !== undefined && <p className={styles.figures}>{spentWords(proposal, money)}</p>}
      {others.length > 0 && (
        <Opening summary={say('{length, plural, one {# other way} other {# other ways}}', { length: others.length })}>
          <p className={styles.figures}>{say('As above: {proposal}', { proposal: comparedWords(proposal, money) })}</p>
          <ul className={styles.others}>
            {others.map((other) => (
              <li key={other.name}>
                <p className={styles.what}>{other.name}</p>
                <p className={styles.figures}>{comparedWords(other, money)}</p>
              </li>
            ))}
          </ul>
          <p className={why.quiet}>
            {say(
              'Each way is followed to its end: what it costs, what it cures and how surely, what is lost in lifting, what comes back. Prices and minutes are those of your price book.',
            )}
          </p>
        </Opening>
      )}
    </>
  )
}

/** What follows from the first step stands in sight; what follows from later ones one press behind them. */
const Steps = ({ plan }: { readonly plan: ProposedPlan }) => (
  <ol className={styles.steps} aria-label={say('Proposed steps')}>
    {plan.steps.map((step, at) => (
      <li key={`${step.action} ${step.refs.join()}`}>
        <span className={styles.number} aria-hidden="true">
          {at + 1}
        </span>
        <Step step={step} open={at === 0} />
      </li>
    ))}
  </ol>
)

function Step({ step, open }: { readonly step: ProposedPlan['steps'][number]; readonly open: boolean }) {
  if (step.next === '') return <p className={styles.what}>{proposedWords(step)}</p>
  return (
    <details open={open} className={styles.then}>
      <summary className={styles.what}>{proposedWords(step)}</summary>
      <p className={styles.next}>{step.next.replaceAll(' %', '\u00a0%')}</p>
    </details>
  )
}

/** `Works: 89 %; 3 h 1 min; bill about 260.`: what is spent on it, on average. */
function spentWords({ works, minutes, endings = [] }: RemedyProposal, money: (amount: number) => string): string {
  const means = endingMeans(endings)
  const spent = means === undefined ? '' : say('; bill about {money}', { money: money(means.money) })
  return say('Works: {percent}; {minutes}{spent}.', {
    percent: percent(works ?? 0),
    minutes: minutesWords(minutes),
    spent,
  })
}

/** `Works: 88 %; 3 h 27 min; 491 with all that can go wrong.`: what the ways are compared by. */
function comparedWords({ expectedCost, minutes, works }: ProposedPlan, money: (amount: number) => string): string {
  const chance = works === undefined ? '' : `Works: ${percent(works)}; `
  return say('{chance}{minutes}; {expectedCost} with all that can go wrong.', {
    chance,
    minutes: minutesWords(minutes),
    expectedCost: money(expectedCost),
  })
}
