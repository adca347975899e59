/** What each piece of evidence was worth beside what it took: the user's own, and what Liftmap bought and the user did not. */
import { roughMoney, say } from '../../base/index.ts'
import type { PracticeEvidence, PracticeResult } from '../../rehearsal/index.ts'
import { Opening } from '../controls/pieces.tsx'
import panel from '../controls/panel.module.css'
import { changeWords, WORTH_MEANS } from './words.ts'
import styles from './practiceResult.module.css'

export function EvidenceTable({ result }: { readonly result: PracticeResult }) {
  const { evidence, liftmapDid } = result
  const mine = evidence.filter(({ by }) => by === 'you')
  const others = evidence.filter(({ by }) => by === 'liftmap')
  return (
    <section className={panel.section} aria-label={say('What evidence was worth')}>
      <h3 className={panel.sub}>{say('What each piece of evidence was worth')}</h3>
      <p className={panel.quiet}>{WORTH_MEANS}</p>
      {mine.length === 0 ? <p>{say('You bought none.')}</p> : <Pieces title={say('What you bought')} evidence={mine} />}
      {others.length > 0 && <Pieces title={say('What Liftmap bought and you did not')} evidence={others} />}
      {liftmapDid.length > 0 && (
        <Opening
          summary={say('What Liftmap did: {length, plural, one {# step} other {# steps}}', {
            length: liftmapDid.length,
          })}
        >
          <ol className={styles.steps}>
            {liftmapDid.map((words, index) => (
              <li key={`${index} ${words}`}>{words}</li>
            ))}
          </ol>
        </Opening>
      )}
    </section>
  )
}

function Pieces({ title, evidence }: { readonly title: string; readonly evidence: readonly PracticeEvidence[] }) {
  const idle = evidence.filter(({ worth }) => worth === 0).length
  return (
    <>
      <h4 className={styles.small}>
        {title}: {say('{length, plural, one {# piece} other {# pieces}}', { length: evidence.length })}
        {idle === evidence.length
          ? say(', which changed nothing')
          : idle > 0 && say(', of which {idle} changed nothing', { idle })}
      </h4>
      <table className={panel.table} aria-label={title}>
        <thead>
          <tr>
            <th scope="col">{say('Evidence')}</th>
            <th scope="col" className={panel.number}>
              {say('Took')}
            </th>
            <th scope="col" className={panel.number}>
              {say('Worth')}
            </th>
          </tr>
        </thead>
        <tbody>
          {evidence.map((piece, index) => (
            <tr key={`${index} ${piece.words}`}>
              <th scope="row">
                {piece.words}
                <span className={styles.change}>{changeWords(piece)}</span>
              </th>
              <td className={`${panel.number} ${styles.took}`}>
                {piece.money === 0 ? say('nothing') : `${piece.minutes} min, ${roughMoney(piece.money)}`}
              </td>
              <td className={panel.number}>
                <b>{roughMoney(piece.worth)}</b>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  )
}
