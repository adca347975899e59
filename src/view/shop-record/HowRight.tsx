/** What Liftmap had said when the lift list was acted on, held against what was found: this shop's cards alone. */
import { useMemo } from 'react'
import { type Accuracy, accuracyOf, type ClosedCard, type Judged } from '../../rehearsal/index.ts'
import panel from '../controls/panel.module.css'
import { Reliability } from './Reliability.tsx'
import styles from './shopRecord.module.css'
import { intervalWords, monthWords, shareWords, trustWords } from './words.ts'

export function HowRight({ cards }: { readonly cards: readonly ClosedCard[] }) {
  const accuracy = useMemo(() => accuracyOf(cards), [cards])
  return (
    <section className={panel.section} aria-label="How right Liftmap was">
      <h2 className={panel.sub}>How right Liftmap was in this shop</h2>
      <p className={panel.quiet}>
        {trustWords(accuracy.cards)}{' '}
        {accuracy.cards === 0 &&
          'It takes cards whose cause is confirmed and known whole; what Liftmap says is kept when the first pass is noted.'}
      </p>
      {accuracy.cards > 0 && (
        <>
          <Shares accuracy={accuracy} />
          <Reliability accuracy={accuracy} />
          <Months accuracy={accuracy} />
        </>
      )}
    </section>
  )
}

function Shares({ accuracy }: { readonly accuracy: Accuracy }) {
  return (
    <table className={panel.table} aria-label="Stories and lists against what was found">
      <thead>
        <tr>
          <th scope="col">What was said</th>
          <th scope="col" className={panel.number}>
            Counted
          </th>
          <th scope="col" className={panel.number}>
            Share
          </th>
          <th scope="col" className={panel.number}>
            Likely between
          </th>
        </tr>
      </thead>
      <tbody>
        <ShareRow words="The first story named what was wrong, and nothing else" share={accuracy.first} />
        <ShareRow words="One of the first three stories did" share={accuracy.firstThree} />
        <ShareRow words="Parts on the list at which nothing was wrong" share={accuracy.needless} />
        <ShareRow words="Parts that needed lifting and were not on the list" share={accuracy.missed} />
        <ShareRow words="Parts lifted at which nothing was wrong, listed or not" share={accuracy.liftedForNothing} />
      </tbody>
    </table>
  )
}

function ShareRow({ words, share }: { readonly words: string; readonly share: Judged }) {
  return (
    <tr>
      <th scope="row">{words}</th>
      <td className={panel.number}>
        {share.hits} of {share.tries}
      </td>
      <td className={panel.number}>{shareWords(share)}</td>
      <td className={panel.number}>{share.tries === 0 ? '–' : intervalWords(share)}</td>
    </tr>
  )
}

function Months({ accuracy: { months } }: { readonly accuracy: Accuracy }) {
  return (
    <div className={styles.scroller}>
      <table className={panel.table} aria-label="By month">
        <thead>
          <tr>
            <th scope="col">Handed back in</th>
            <th scope="col" className={panel.number}>
              Cards
            </th>
            <th scope="col" className={panel.number}>
              First story right
            </th>
            <th scope="col" className={panel.number}>
              One of three right
            </th>
          </tr>
        </thead>
        <tbody>
          {months.toReversed().map(({ month, cards, first, firstThree }) => (
            <tr key={month ?? 'none'}>
              <th scope="row">{monthWords(month)}</th>
              <td className={panel.number}>{cards}</td>
              <td className={panel.number}>
                {first.hits} of {first.tries}
              </td>
              <td className={panel.number}>
                {firstThree.hits} of {firstThree.tries}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
