/** Donor cards, each with what was taken from it. */
import { donorsOf, type StockItem } from '../../case/index.ts'
import { nameOf } from '../actions/stock.ts'
import panel from '../controls/panel.module.css'
import styles from './stock.module.css'

export function Donors({ items }: { readonly items: readonly StockItem[] }) {
  const donors = donorsOf(items)
  if (donors.length === 0) return undefined
  return (
    <section className={panel.section} aria-label="Donors">
      <h2 className={panel.sub}>Donors</h2>
      <ul className={styles.donors}>
        {donors.map(({ card, taken }) => (
          <li key={card}>
            <b>Card {card}</b>
            <ul>
              {taken.map((item) => (
                <li key={item.id}>
                  {[item.donorRef, nameOf(item)].filter(Boolean).join(': ')}
                  <span className={styles.quiet}>
                    {item.takenOn === undefined ? '' : `, taken ${item.takenOn}`}
                    {item.count === 0 ? ', used up' : `, ${item.count} left`}
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
