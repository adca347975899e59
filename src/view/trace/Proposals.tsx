/** Parts that look like the selected one: each can be struck out, on the photo or in the list. */
import { counted } from '../../base/index.ts'
import { Button } from '../controls/Button.tsx'
import { Tick } from '../controls/fields.tsx'
import styles from './trace.module.css'
import type { TraceState } from './useTrace.ts'
import { withProposalsTaken, withStrike, withStrikesBelow } from './work.ts'

export function Proposals({ trace }: { readonly trace: TraceState }) {
  const { proposals } = trace.work
  const kept = proposals.filter(({ struckOut }) => !struckOut)
  return (
    <section className={styles.box} aria-label="What looks like it">
      <p>
        <b>{counted(proposals.length, 'proposal')}.</b> Click on the photo what does not belong.
      </p>
      <ol className={styles.list}>
        {proposals.map(({ part, score, struckOut }, i) => (
          <li key={part.id}>
            <Tick
              label={`${Math.round(score * 100)} % alike, at ${part.at.x.toFixed(0)}, ${part.at.y.toFixed(0)} mm`}
              checked={!struckOut}
              onChange={() => trace.change((work) => withStrike(work, part.id))}
            />
            {i > 0 && (
              <Button
                tone="quiet"
                aria-label={`Strike out from number ${i + 1} on`}
                onClick={() => trace.change((work) => withStrikesBelow(work, score + 1e-9))}
              >
                Out from here
              </Button>
            )}
          </li>
        ))}
      </ol>
      <div className={styles.row}>
        <Button tone="strong" onClick={() => trace.change(withProposalsTaken)}>
          Take {kept.length}
        </Button>
        <Button onClick={() => trace.change((work) => ({ ...work, proposals: [] }))}>Take none</Button>
      </div>
    </section>
  )
}
