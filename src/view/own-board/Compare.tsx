/** Two versions of a board compared: over one another on a sheet, and in words. */
import { say } from '../../base/index.ts'
import { useMemo, useState } from 'react'
import { compareBoards, sayComparison } from '../../board/index.ts'
import { SelectField } from '../controls/fields.tsx'
import type { BoardVersion } from '../shelf/boardShelf.ts'
import { CompareSheet } from './CompareSheet.tsx'
import styles from './own-board.module.css'
import { versionWords } from './words.ts'

interface CompareProps {
  readonly versions: readonly BoardVersion[]
  /** Number of the later one to begin with; the one before it is the earlier. */
  readonly later?: number | undefined
}

export function Compare({ versions, later }: CompareProps) {
  const last = versions.find(({ number }) => number === later) ?? versions.at(-1)
  const [afterNumber, setAfter] = useState(last?.number ?? 1)
  const [beforeNumber, setBefore] = useState(Math.max(versions[0]?.number ?? 1, (last?.number ?? 1) - 1))
  const before = versions.find(({ number }) => number === beforeNumber)
  const after = versions.find(({ number }) => number === afterNumber)
  const comparison = useMemo(
    () =>
      before === undefined || after === undefined ? undefined : compareBoards(before.description, after.description),
    [before, after],
  )
  if (before === undefined || after === undefined || comparison === undefined || versions.length < 2)
    return <p className={styles.alone}>{say('There is one version only: nothing to compare it with yet.')}</p>
  const options = versions.map((version) => ({ value: String(version.number), words: versionWords(version) }))
  const sentences = sayComparison(comparison)
  return (
    <div className={styles.compare}>
      <CompareSheet before={before.description} after={after.description} comparison={comparison} />
      <div className={styles.compareWords}>
        <div className={styles.fields}>
          <SelectField
            label={say('Earlier')}
            value={String(beforeNumber)}
            options={options}
            onChange={(value) => setBefore(Number(value))}
          />
          <SelectField
            label={say('Later')}
            value={String(afterNumber)}
            options={options}
            onChange={(value) => setAfter(Number(value))}
          />
        </div>
        <h3>{say('What changed')}</h3>
        <ul className={styles.changes}>
          {sentences.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      </div>
    </div>
  )
}
