/** What the hatches and numbers on the map of a practice card mean. */
import { say } from '../../base/index.ts'
import type { PracticeView } from '../../rehearsal/index.ts'
import { ProofKey } from '../stations/proof/ProofKey.tsx'
import styles from './practice.module.css'

export function MapKey({ view }: { readonly view: Pick<PracticeView, 'lastRun' | 'lifted' | 'untested'> }) {
  return (
    <div className={styles.key}>
      {view.lastRun === undefined ? <p>{say('Hatched: lanes that fail.')}</p> : <ProofKey />}
      {view.lifted.length > 0 && <p>{say('Numbered: lifted, in this order.')}</p>}
      {view.untested && <p>{say('Not tested since the work.')}</p>}
    </div>
  )
}
