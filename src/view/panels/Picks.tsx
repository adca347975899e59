/** Names of things on the board that can be picked, one after the other. */
import { say } from '../../base/index.ts'
import { showOnSheet } from '../actions/show.ts'
import { LinkButton } from '../controls/Button.tsx'
import type { Selection } from '../sheet/index.ts'
import { useDesk } from '../stores/hooks.ts'
import styles from '../controls/panel.module.css'

export const MAX_PICKS = 60

export function Picks({ kind, ids }: { readonly kind: Selection['kind']; readonly ids: readonly string[] }) {
  const desk = useDesk()
  return (
    <p className={styles.row}>
      {ids.slice(0, MAX_PICKS).map((id) => (
        <LinkButton key={id} onClick={() => showOnSheet(desk, { kind, id })}>
          {id}
        </LinkButton>
      ))}
      {ids.length > MAX_PICKS && (
        <span className={styles.quiet}>{say('and {length} more', { length: ids.length - MAX_PICKS })}</span>
      )}
    </p>
  )
}
