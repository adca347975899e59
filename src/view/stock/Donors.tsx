/** Donor cards, each with what was taken from it. */
import { say } from '../../base/index.ts'
import { donorsOf, type StockItem } from '../../case/index.ts'
import { nameOf } from '../actions/stock.ts'
import panel from '../controls/panel.module.css'
import styles from './stock.module.css'

export function Donors({ items }: { readonly items: readonly StockItem[] }) {
  const donors = donorsOf(items)
  if (donors.length === 0) return undefined
  return (
    <section className={panel.section} aria-label={say('Donors')}>
      <h2 className={panel.sub}>{say('Donors')}</h2>
      <ul className={styles.donors}>
        {donors.map(({ card, taken }) => (
          <li key={card}>
            <b>{say('Card {card}', { card })}</b>
            <ul>
              {taken.map((item) => (
                <li key={item.id}>
                  {[item.donorRef, nameOf(item)].filter(Boolean).join(': ')}
                  <span className={styles.quiet}>
                    {item.takenOn === undefined ? '' : say(', taken {takenOn}', { takenOn: item.takenOn })}
                    {item.count === 0 ? say(', used up') : say(', {count} left', { count: item.count })}
                  </span>
                </li>
              ))}
            </ul>
          </li>
        ))}
      </ul>
    </section>
  )
}
