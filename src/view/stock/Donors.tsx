/** Donor cards, each with what was taken from it. */
import { dayWords, good, type Result, say } from '../../base/index.ts'
import { donorsOf, type StockItem } from '../../case/index.ts'
import { Button } from '../controls/Button.tsx'
import { useDesk } from '../stores/hooks.ts'
import type { StockShelf } from '../shelf/stockShelf.ts'
import { nameOf } from '../actions/stock.ts'
import panel from '../controls/panel.module.css'
import type { Tell } from './StockPage.tsx'
import styles from './stock.module.css'

interface DonorsProps {
  readonly items: readonly StockItem[]
  readonly tell: Tell
}

export function Donors({ items, tell }: DonorsProps) {
  const { caseShelf } = useDesk()
  const donors = donorsOf(items)
  if (donors.length === 0) return undefined
  return (
    <section className={panel.section} aria-label={say('Donors')}>
      <h2 className={panel.sub}>{say('Donors')}</h2>
      <ul className={styles.donors}>
        {donors.map(({ card, taken }) => (
          <li key={card}>
            <b>{say('Card {card}', { card })}</b>
            {taken.every(({ removedOn }) => removedOn !== undefined) && (
              <Button
                tone="quiet"
                aria-label={say('Forget donor {card}', { card })}
                onClick={() => tell(forgotten(caseShelf.stock, taken))}
              >
                {say('Forget')}
              </Button>
            )}
            <ul>
              {taken.map((item) => (
                <li key={item.id}>
                  {[item.donorRef, nameOf(item)].filter(Boolean).join(': ')}
                  <span className={styles.quiet}>{standWords(item).map((words) => `, ${words}`)}</span>
                </li>
              ))}
            </ul>
          </li>
        ))}
      </ul>
    </section>
  )
}

function standWords({ count, takenOn, removedOn }: StockItem): string[] {
  const taken = takenOn === undefined ? [] : [say('taken {on}', { on: dayWords(takenOn) })]
  if (removedOn !== undefined) return [...taken, say('out of the list since {on}', { on: dayWords(removedOn) })]
  return [...taken, count === 0 ? say('used up') : say('{count} left', { count })]
}

/** A donor of which nothing stands in the list any more. */
async function forgotten(stock: StockShelf, taken: readonly StockItem[]): Promise<Result<undefined>> {
  for (const { id } of taken) {
    const done = await stock.change(id, () => good(undefined))
    if (!done.ok) return done
  }
  return good(undefined)
}
