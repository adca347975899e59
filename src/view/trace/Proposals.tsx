/** Parts that look like the selected one: each can be struck out, on the photo or in the list. */
import { decimals, say } from '../../base/index.ts'
import { Button } from '../controls/Button.tsx'
import { Tick } from '../controls/fields.tsx'
import styles from './trace.module.css'
import type { TraceState } from './useTrace.ts'
import { withProposalsTaken, withStrike, withStrikesBelow } from './work.ts'

export function Proposals({ trace }: { readonly trace: TraceState }) {
  const { proposals } = trace.work
  const kept = proposals.filter(({ struckOut }) => !struckOut)
  return (
    <section className={styles.box} aria-label={say('What looks like it')}>
      <p>
        <b>{say('{length, plural, one {# proposal} other {# proposals}}', { length: proposals.length })}.</b>{' '}
        {say('Click on the photo what does not belong.')}
      </p>
      <ol className={styles.list}>
        {proposals.map(({ part, score, struckOut }, i) => (
          <li key={part.id}>
            <Tick
              label={say('{value} % alike, at {x}, {y} mm', {
                value: Math.round(score * 100),
                x: decimals(part.at.x, 0),
                y: decimals(part.at.y, 0),
              })}
              checked={!struckOut}
              onChange={() => trace.change((work) => withStrike(work, part.id))}
            />
            {i > 0 && (
              <Button
                tone="quiet"
                aria-label={say('Strike out from number {i} on', { i: i + 1 })}
                onClick={() => trace.change((work) => withStrikesBelow(work, score + 1e-9))}
              >
                {say('Out from here')}
              </Button>
            )}
          </li>
        ))}
      </ol>
      <div className={styles.row}>
        <Button tone="strong" onClick={() => trace.change(withProposalsTaken)}>
          {say('Take {length}', { length: kept.length })}
        </Button>
        <Button onClick={() => trace.change((work) => ({ ...work, proposals: [] }))}>{say('Take none')}</Button>
      </div>
    </section>
  )
}
