/** The neighbours that a pass exposes: shape, name, what happens to it and its temperature. */
import type { ExposedPart } from '../../sheet/index.ts'
import { exposedWords } from '../../stores/planWords.ts'
import { count } from '../../stores/words.ts'
import { ExposureSymbol } from './ExposureSymbol.tsx'
import styles from './plan.module.css'

const SHOWN = 6

export function Exposed({ parts }: { readonly parts: readonly ExposedPart[] }) {
  if (parts.length === 0) return <p className={styles.small}>No neighbour melts or comes near its limit.</p>
  const rest = parts.slice(SHOWN)
  return (
    <div>
      <ul className={styles.exposed} aria-label="Neighbours that get too hot">
        {parts.slice(0, SHOWN).map((part) => (
          <ExposedRow key={part.ref} part={part} />
        ))}
      </ul>
      {rest.length > 0 && (
        <details className={styles.more}>
          <summary>{count(rest.length, 'more')}</summary>
          <ul className={styles.exposed}>
            {rest.map((part) => (
              <ExposedRow key={part.ref} part={part} />
            ))}
          </ul>
        </details>
      )}
    </div>
  )
}

const ExposedRow = ({ part }: { readonly part: ExposedPart }) => (
  <li>
    <ExposureSymbol kind={part.kind} /> <span>{exposedWords(part)}</span>
  </li>
)
