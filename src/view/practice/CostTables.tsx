/** What the card cost: split up for the user, and beside others on the very same card. */
import { roughMoney, say } from '../../base/index.ts'
import type { PracticeResult, Split } from '../../rehearsal/index.ts'
import { Bar } from '../controls/pieces.tsx'
import panel from '../controls/panel.module.css'
import { listWords, rivalWords, splitWords } from './words.ts'
import styles from './practiceResult.module.css'

const splitOrder: readonly (keyof Split)[] = [
  'checks',
  'runs',
  'puttingRight',
  'neededLifts',
  'needlessLifts',
  'comeback',
  'laterLifts',
  'forgone',
]

export function CostTables({ result }: { readonly result: PracticeResult }) {
  const { you, needs } = result
  const rows = splitOrder.filter((key) => you.split[key] > 0)
  return (
    <>
      <section className={panel.section} aria-label={say('Beside others')}>
        <h3 className={panel.sub}>{say('You beside others on this card')}</h3>
        <Others result={result} />
        <p className={panel.quiet}>
          {say(
            'In the shop’s currency, with the shipped figures; without the last run, which everybody makes before a card goes out. Lists and rules are one lift without a check. Whatever was left is paid for as a comeback.',
          )}
        </p>
      </section>
      <section className={panel.section} aria-label={say('Your cost')}>
        <h3 className={panel.sub}>{say('Your cost: {minutes} minutes at the bench', { minutes: you.minutes })}</h3>
        <table className={panel.table} aria-label={say('Your cost, split up')}>
          <tbody>
            {rows.map((key) => (
              <tr key={key}>
                <th scope="row">
                  {splitWords[key]}
                  {key === 'neededLifts' && `: ${you.lifted.filter((ref) => needs.includes(ref)).join(', ')}`}
                  {key === 'needlessLifts' && `: ${you.needless.join(', ')}`}
                  {key === 'laterLifts' && `: ${you.missed.join(', ')}`}
                </th>
                <td className={panel.number}>{roughMoney(you.split[key])}</td>
              </tr>
            ))}
            <tr>
              <th scope="row">
                <b>{say('All of it')}</b>
              </th>
              <td className={panel.number}>
                <b>{roughMoney(rows.reduce((sum, key) => sum + you.split[key], 0))}</b>
              </td>
            </tr>
          </tbody>
        </table>
      </section>
    </>
  )
}

function Others({ result: { you, rivals, needs } }: { readonly result: PracticeResult }) {
  const rows = [
    { id: 'you', words: say('You'), cost: you.cost, lifted: you.lifted, split: you.split },
    ...rivals.map((rival) => ({ ...rival, words: rivalWords[rival.id] })),
  ].toSorted((a, b) => a.cost - b.cost)
  const dearest = Math.max(1, ...rows.map(({ cost }) => cost))
  return (
    <div className={styles.scroller} role="group" aria-label={say('Costs of all')} tabIndex={0}>
      <table className={panel.table} aria-label={say('Cost beside others')}>
        <thead>
          <tr>
            <th scope="col">{say('Who')}</th>
            <th scope="col">{say('Lifted')}</th>
            <th scope="col" className={panel.number}>
              {say('For nothing')}
            </th>
            <th scope="col">{say('Left wrong')}</th>
            <th scope="col" className={panel.number}>
              {say('Cost')}
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ id, words, cost, lifted, split }) => (
            <tr key={id} data-you={id === 'you'} className={styles.who}>
              <th scope="row">
                {words}
                <Bar share={cost / dearest} />
              </th>
              <td>{listWords(lifted)}</td>
              <td className={panel.number}>{lifted.filter((ref) => !needs.includes(ref)).length}</td>
              <td>
                {leftWords(
                  needs.filter((ref) => !lifted.includes(ref)),
                  split,
                )}
              </td>
              <td className={panel.number}>{roughMoney(cost)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}

/** What nobody lifts and nobody mended makes the card come back as well. */
function leftWords(missed: readonly string[], { comeback, forgone }: Split): string {
  if (forgone > 0) return say('given up')
  if (missed.length > 0) return listWords(missed)
  return comeback > 0 ? say('a rail or a track') : say('nothing')
}
