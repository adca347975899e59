/** Everything that was traced, as a list that keys reach: what is selected here is selected on the photo. */
import { say } from '../../base/index.ts'
import { refsOf } from '../../trace/index.ts'
import { kindWords } from './bodies.ts'
import styles from './trace.module.css'
import type { TraceState } from './useTrace.ts'

export function PartList({ trace }: { readonly trace: TraceState }) {
  const { parts, selectedId, firstId } = trace.work
  const refs = refsOf(parts, { firstId })
  const inOrder = parts.toSorted((a, b) =>
    (refs.get(a.id) ?? '').localeCompare(refs.get(b.id) ?? '', 'en', { numeric: true }),
  )
  return (
    <section className={styles.box} aria-label={say('Traced parts')}>
      <p>
        <b>{say('{length, plural, one {# part} other {# parts}} traced', { length: parts.length })}</b>
      </p>
      <ul className={styles.chips}>
        {inOrder.map((part) => (
          <li key={part.id}>
            <button
              type="button"
              aria-pressed={part.id === selectedId}
              title={say('{kind}, {side} side', { kind: kindWords(part.kind), side: part.side })}
              onClick={() => trace.select(part.id)}
            >
              {refs.get(part.id)}
            </button>
          </li>
        ))}
      </ul>
    </section>
  )
}
