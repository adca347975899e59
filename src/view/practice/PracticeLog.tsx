/** What was done so far, the last first, each with what it told and what it took. */
import { say } from '../../base/index.ts'
import type { LogEntry, PracticeView } from '../../rehearsal/index.ts'
import { checkById, checkWords } from '../../suspects/index.ts'
import panel from '../controls/panel.module.css'
import { paidWords } from './words.ts'
import styles from './practice.module.css'

export function PracticeLog({ view }: { readonly view: PracticeView }) {
  const { log } = view
  return (
    <section className={panel.section} aria-label={say('What was done')}>
      <h3 className={panel.sub}>{say('What was done')}</h3>
      {log.length === 0 && (
        <p className={panel.quiet}>{say('Nothing yet. What you do stands here with what it told.')}</p>
      )}
      <ol className={styles.entries} reversed>
        {log.toReversed().map((entry, index) => (
          <li key={log.length - index}>
            <b>{entryTitle(entry)}</b>
            <span className={styles.paid}>{entry.minutes > 0 ? paidWords(entry.minutes, entry.money) : ''}</span>
            {entry.outcome.length > 0 && <p>{entry.outcome.join(' ')}</p>}
          </li>
        ))}
      </ol>
    </section>
  )
}

function entryTitle({ action }: Pick<LogEntry, 'action'>): string {
  switch (action.kind) {
    case 'check':
      return checkWords(checkById(action.check)?.question ?? action.check, action.at)
    case 'lift':
      return say('Lifted {ref}, looked under it, put it right', { ref: action.ref })
    case 'put-right':
      return say('Put right {name}', { name: action.name })
    case 'run':
      return say('Ran the memory test')
    case 'ask':
      return say('Asked what Liftmap would do')
    case 'hand-back':
      return action.as === 'repaired' ? say('Handed back as repaired') : say('Handed back as not worth it')
  }
}
