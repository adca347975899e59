/** What comes with the card: the owner's account, the report as it stands and what was read out of it, cold readings. */
import { say } from '../../base/index.ts'
import type { PracticeView } from '../../rehearsal/index.ts'
import { Opening } from '../controls/pieces.tsx'
import panel from '../controls/panel.module.css'
import styles from './practice.module.css'

export function TheCard({ view }: { readonly view: PracticeView }) {
  const { account, report, measuredBefore } = view
  return (
    <section className={panel.section} aria-label={say('The card as it came')}>
      <h3 className={panel.sub}>{say('The card as it came')}</h3>
      {account.length > 0 && (
        <ul className={styles.lines}>
          {account.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      <div>
        <p className={panel.quiet}>{say('Read out of the report of its memory test:')}</p>
        <ul className={styles.lines}>
          {report.read.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
        <Opening summary={say('The report itself ({layout})', { layout: report.layout })}>
          <pre className={styles.report} tabIndex={0} aria-label={say('The report of the memory test')}>
            {report.text}
          </pre>
          {report.cut > 0 && (
            <p className={panel.quiet}>
              {say('{cut, plural, one {# more character} other {# more characters}} not shown.', { cut: report.cut })}
            </p>
          )}
        </Opening>
      </div>
      {measuredBefore.length === 0 ? (
        <p className={panel.quiet}>{say('Nobody has measured anything yet.')}</p>
      ) : (
        <Opening
          summary={say('{length, plural, one {# line} other {# lines}} measured cold before', {
            length: measuredBefore.length,
          })}
        >
          <ul className={styles.lines}>
            {measuredBefore.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </Opening>
      )}
    </section>
  )
}
