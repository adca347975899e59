/** What Liftmap had said when the lift list was acted on, held against what was found: this shop's cards alone. */
import { say } from '../../base/index.ts'
import { useMemo } from 'react'
import { type Accuracy, accuracyOf, type ClosedCard, type Judged } from '../../rehearsal/index.ts'
import { Figured } from '../figures/index.ts'
import panel from '../controls/panel.module.css'
import { Reliability } from './Reliability.tsx'
import styles from './shopRecord.module.css'
import { intervalWords, monthWords, shareWords, trustWords } from './words.ts'

export function HowRight({ cards }: { readonly cards: readonly ClosedCard[] }) {
  const accuracy = useMemo(() => accuracyOf(cards), [cards])
  return (
    <section className={panel.section} aria-label={say('How right Liftmap was')}>
      <h2 className={panel.sub}>{say('How right Liftmap was in this shop')}</h2>
      <p className={panel.quiet}>
        {trustWords(accuracy.cards)}{' '}
        {accuracy.cards === 0 &&
          say(
            'It takes cards whose cause is confirmed and known whole; what Liftmap says is kept when the first pass is noted.',
          )}
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
    <table className={panel.table} aria-label={say('Stories and lists against what was found')}>
      <thead>
        <tr>
          <th scope="col">{say('What was said')}</th>
          <th scope="col" className={panel.number}>
            {say('Counted')}
          </th>
          <th scope="col" className={panel.number}>
            {say('Share')}
          </th>
          <th scope="col" className={panel.number}>
            {say('Likely between')}
          </th>
        </tr>
      </thead>
      <tbody>
        <ShareRow words={say('The first story named what was wrong, and nothing else')} share={accuracy.first} />
        <ShareRow words={say('One of the first three stories did')} share={accuracy.firstThree} />
        <ShareRow words={say('Parts on the list at which nothing was wrong')} share={accuracy.needless} />
        <ShareRow words={say('Parts that needed lifting and were not on the list')} share={accuracy.missed} />
        <ShareRow
          words={say('Parts lifted at which nothing was wrong, listed or not')}
          share={accuracy.liftedForNothing}
        />
      </tbody>
    </table>
  )
}

function ShareRow({ words, share }: { readonly words: string; readonly share: Judged }) {
  return (
    <tr>
      <th scope="row">{words}</th>
      <td className={panel.number}>{say('{hits} of {tries}', { hits: share.hits, tries: share.tries })}</td>
      <td className={panel.number}>
        <Figured of={{ kind: 'shop-share', words, hits: share.hits, tries: share.tries }}>{shareWords(share)}</Figured>
      </td>
      <td className={panel.number}>{share.tries === 0 ? '–' : intervalWords(share)}</td>
    </tr>
  )
}

function Months({ accuracy: { months } }: { readonly accuracy: Accuracy }) {
  return (
    <div className={styles.scroller}>
      <table className={panel.table} aria-label={say('By month')}>
        <thead>
          <tr>
            <th scope="col">{say('Handed back in')}</th>
            <th scope="col" className={panel.number}>
              {say('Cards')}
            </th>
            <th scope="col" className={panel.number}>
              {say('First story right')}
            </th>
            <th scope="col" className={panel.number}>
              {say('One of three right')}
            </th>
          </tr>
        </thead>
        <tbody>
          {months.toReversed().map(({ month, cards, first, firstThree }) => (
            <tr key={month ?? 'none'}>
              <th scope="row">{monthWords(month)}</th>
              <td className={panel.number}>{cards}</td>
              <td className={panel.number}>{say('{hits} of {tries}', { hits: first.hits, tries: first.tries })}</td>
              <td className={panel.number}>
                {say('{hits} of {tries}', { hits: firstThree.hits, tries: firstThree.tries })}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
