/** One fault as a line of a list: where, what was found, what was expected, what to do. */
import type { Fault } from '../../base/index.ts'
import { saidAround } from './saidAround.ts'
import styles from './files.module.css'

export function FaultRow({ fault }: { readonly fault: Fault }) {
  return (
    <li>
      <code>{fault.path}</code>
      <span>
        {saidAround('found {found}, expected {expected}.', { found: <b>{fault.found}</b>, expected: fault.expected })}
      </span>
      {fault.todo !== undefined && <span className={styles.todo}>{fault.todo}</span>}
    </li>
  )
}
