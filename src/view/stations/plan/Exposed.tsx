/** The neighbours that a pass exposes: packages each by name, small parts summed up; shape, what happens, temperature. */
import { say } from '../../../base/index.ts'
import { crackedFromWords } from '../../../heat/index.ts'
import type { ExposedPart } from '../../sheet/index.ts'
import { FiguredText } from '../../figures/index.ts'
import { sortExposed } from './heatFacts.ts'
import { useBoard } from '../../stores/hooks.ts'
import { exposedWords, exposureKindWords } from './planWords.ts'
import { ExposureSymbol } from './ExposureSymbol.tsx'
import styles from './plan.module.css'

const SHOWN = 5

interface ExposedProps {
  /** Number of the step. */
  readonly n: number
  readonly parts: readonly ExposedPart[]
}

export function Exposed({ n, parts }: ExposedProps) {
  const board = useBoard()
  if (board === undefined) return undefined
  if (parts.length === 0) return <p className={styles.small}>{say('No neighbour melts or comes near its limit.')}</p>
  const { named, small } = sortExposed(board.model, parts)
  const rest = named.slice(SHOWN)
  return (
    <div>
      <ul className={styles.exposed} aria-label={say('Neighbours that get too hot')}>
        {named.slice(0, SHOWN).map((part) => (
          <Row key={part.ref} part={part} n={n} />
        ))}
        {small.map(({ kind, words, refs }) => (
          <li key={kind}>
            <ExposureSymbol kind={kind} />{' '}
            <span>
              <FiguredText words={words} of={{ kind: 'neighbour-peak', ref: refs[0] ?? '', n }} />:{' '}
              {exposureKindWords[kind]}
            </span>
          </li>
        ))}
      </ul>
      {parts.some(({ cracksFromC }) => cracksFromC !== undefined) && (
        <p className={styles.because}>
          <FiguredText words={crackedFromWords} of={{ kind: 'cracks' }} />
        </p>
      )}
      {(rest.length > 0 || small.length > 0) && (
        <details className={styles.more}>
          <summary>
            {rest.length > 0
              ? say('{length, plural, one {# more package} other {# more packages}}, and every part by name', {
                  length: rest.length,
                })
              : say('Every part by name')}
          </summary>
          <ul className={styles.exposed}>
            {rest.map((part) => (
              <Row key={part.ref} part={part} n={n} />
            ))}
            {small.map(({ kind, refs }) => (
              <li key={kind}>
                <ExposureSymbol kind={kind} /> <span>{refs.join(', ')}</span>
              </li>
            ))}
          </ul>
        </details>
      )}
    </div>
  )
}

const Row = ({ part, n }: { readonly part: ExposedPart; readonly n: number }) => (
  <li>
    <ExposureSymbol kind={part.kind} />{' '}
    <span>
      <FiguredText words={exposedWords(part)} of={{ kind: 'neighbour-peak', ref: part.ref, n }} />
    </span>
  </li>
)
