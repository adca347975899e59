/** Where the lifted parts of the card on the desk lie. */
import { say } from '../../base/index.ts'
import { binWords } from '../../case/index.ts'
import panel from '../controls/panel.module.css'
import { usePresent } from '../stores/hooks.ts'
import styles from './stock.module.css'

export function BinsOfCard() {
  const bins = usePresent()?.bins ?? []
  if (bins.length === 0) return undefined
  return (
    <section className={panel.section} aria-label={say('Lifted parts in bins')}>
      <h2 className={panel.sub}>{say('Lifted parts in bins')}</h2>
      <ul className={styles.bins}>
        {bins.map((bin) => (
          <li key={bin.ref}>
            <b>{bin.ref}</b> {binWords(bin) || say('nothing noted')}
          </li>
        ))}
      </ul>
    </section>
  )
}
