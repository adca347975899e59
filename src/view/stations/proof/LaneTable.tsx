/** Lanes before and after the work, and what became of each. */
import { say } from '../../../base/index.ts'
import type { LaneProof } from '../../../case/index.ts'
import { showOnSheet } from '../../actions/show.ts'
import { LinkButton } from '../../controls/Button.tsx'
import { ProofSymbol } from './ProofSymbol.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk } from '../../stores/hooks.ts'
import { moreWords, stateWords, verdictWords } from './proofWords.ts'
import own from './proof.module.css'

export function LaneTable({ lanes }: { readonly lanes: readonly LaneProof[] }) {
  const desk = useDesk()
  return (
    <table className={styles.table}>
      <caption className="visually-hidden">{say('Errors of each lane before and after')}</caption>
      <thead>
        <tr>
          <th scope="col">{say('lane')}</th>
          <th scope="col">{say('before')}</th>
          <th scope="col">{say('after')}</th>
          <th scope="col">{say('so it is')}</th>
        </tr>
      </thead>
      <tbody>
        {lanes.map((lane) => (
          <tr key={lane.id}>
            <th scope="row">
              <LinkButton onClick={() => showOnSheet(desk, { kind: 'lane', id: lane.id })}>{lane.id}</LinkButton>
            </th>
            <td>{stateWords(lane.before, lane.errorsBefore)}</td>
            <td>{stateWords(lane.after, lane.errorsAfter)}</td>
            <td>
              <span className={own.verdict}>
                <ProofSymbol kind={lane.verdict} />
                <span>
                  {verdictWords[lane.verdict]}
                  {moreWords(lane) !== '' && <small>{moreWords(lane)}</small>}
                </span>
              </span>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
