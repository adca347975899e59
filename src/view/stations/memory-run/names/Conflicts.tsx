/** What does not hold together in what was told of the names. */
import { say } from '../../../../base/index.ts'
import { TriangleAlert } from 'lucide-react'
import type { NameConflict } from '../../../../report/index.ts'
import styles from './names.module.css'

const MOST_SHOWN = 3

export function Conflicts({ conflicts }: { readonly conflicts: readonly NameConflict[] }) {
  if (conflicts.length === 0) return undefined
  const more = conflicts.length - MOST_SHOWN
  return (
    <ul className={styles.conflicts} aria-label={say('What does not hold together')}>
      {conflicts.slice(0, MOST_SHOWN).map(({ sentence }) => (
        <li key={sentence}>
          <TriangleAlert size={15} aria-hidden="true" /> {sentence}
        </li>
      ))}
      {more > 0 && <li>{say('{more, plural, one {# conflict} other {# conflicts}} more.', { more })}</li>}
    </ul>
  )
}
