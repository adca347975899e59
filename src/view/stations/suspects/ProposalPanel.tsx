/** What to do first and what then depends on what is seen: the cheapest plan of remedies, with other ways to begin beside it. */
import { useId } from 'react'
import { say } from '../../../base/index.ts'
import { endingMeans, type ProposedPlan, proposedWords, type RemedyProposal } from '../../../suspects/index.ts'
import { CautionBox, Opening } from '../../controls/pieces.tsx'
import { FiguredText } from '../../figures/index.ts'
import { useShortsFirst } from '../../stores/measuring.ts'
import { useNextChecks, useTally } from '../../stores/hooks.ts'
import { useRoughMoney } from '../../stores/money.ts'
import { minutesWords, percent } from '../../stores/words.ts'
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
  return (
    <>
      <Steps plan={proposal} />
      {proposal.works !== undefined && (
        <p className={styles.figures}>
          <Spent proposal={proposal} />
        </p>
      )}
      {others.length > 0 && (
        <Opening summary={say('{length, plural, one {# other way} other {# other ways}}', { length: others.length })}>
          <p className={styles.figures}>
            {say('As above:')} <Compared plan={proposal} way="" />
          </p>
          <ul className={styles.others}>
            {others.map((other) => (
              <li key={other.name}>
                <p className={styles.what}>{other.name}</p>
                <p className={styles.figures}>
                  <Compared plan={other} way={other.name} />
                </p>
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

/** What follows from the first step stands in sight, but of a check, which is asked below; of later ones it is one press behind. */
const Steps = ({ plan }: { readonly plan: ProposedPlan }) => (
  <ol className={styles.steps} aria-label={say('Proposed steps')}>
    {plan.steps.map((step, at) => (
      <li key={`${step.action} ${step.refs.join()}`}>
        <span className={styles.number} aria-hidden="true">
          {at + 1}
        </span>
        <Step step={step} open={at === 0 && step.action !== 'check'} />
      </li>
    ))}
  </ol>
)

function Step({ step, open }: { readonly step: ProposedPlan['steps'][number]; readonly open: boolean }) {
  if (step.next === '') return <p className={styles.what}>{proposedWords(step)}</p>
  return (
    <details open={open} className={styles.then}>
      <summary className={styles.what}>{proposedWords(step)}</summary>
      <p className={styles.next}>
        <FiguredText words={step.next.replaceAll(' %', '\u00a0%')} of={{ kind: 'proposal', way: '' }} />
      </p>
    </details>
  )
}

/** `Works: 89 %; on average 3 h 1 min, bill 260.` */
function Spent({ proposal: { works = 0, minutes, endings = [] } }: { readonly proposal: RemedyProposal }) {
  const money = useRoughMoney()
  const means = endingMeans(endings)
  const told = { works: percent(works), time: minutesWords(minutes) }
  const bill = means === undefined ? '' : money(means.money)
  return (
    <FiguredText
      words={
        means === undefined
          ? say('Works: {works}; on average {time}.', told)
          : say('Works: {works}; on average {time}, bill {bill}.', { ...told, bill })
      }
      numbers={[told.time, bill]}
      of={{ kind: 'proposal', way: '' }}
    />
  )
}

/** `Works: 88 %; 3 h 27 min; 491 with all that can go wrong.`: what the ways are compared by. */
function Compared({ plan, way }: { readonly plan: ProposedPlan; readonly way: string }) {
  const money = useRoughMoney()
  const { expectedCost, minutes, works } = plan
  const told = { time: minutesWords(minutes), cost: money(expectedCost) }
  return (
    <FiguredText
      words={
        works === undefined
          ? say('{time}; {cost} with all that can go wrong.', told)
          : say('Works: {works}; {time}; {cost} with all that can go wrong.', { ...told, works: percent(works) })
      }
      numbers={[told.time, told.cost]}
      of={{ kind: 'proposal', way }}
    />
  )
}
