/** The key to what the sheet draws at the station of the proof. */
import { say } from '../../../base/index.ts'
import { proofKinds } from '../../sheet/index.ts'
import { verdictWords } from './proofWords.ts'
import { ProofSymbol } from './ProofSymbol.tsx'
import styles from '../../controls/sheetPane.module.css'

export function ProofKey() {
  return (
    <ul className={styles.key} aria-label={say('What became of lanes')}>
      {proofKinds.toReversed().map((kind) => (
        <li key={kind}>
          <ProofSymbol kind={kind} /> {verdictWords[kind]}
        </li>
      ))}
    </ul>
  )
}
