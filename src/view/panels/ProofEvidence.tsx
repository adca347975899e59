/** What became of a part's or a lane's lanes after the work, among its evidence; nothing before a run after the work. */
import { say } from '../../base/index.ts'
import { useBoard, useProof } from '../stores/hooks.ts'
import { LaneTable } from '../stations/proof/LaneTable.tsx'
import styles from '../controls/panel.module.css'

export function ProofEvidence({ id }: { readonly id: string }) {
  const proof = useProof()
  const core = useBoard()?.model.core?.ref
  if (proof === undefined || !proof.tested) return undefined
  const lanes = proof.lanes.filter(
    (lane) => lane.id === id || lane.part === id || (core === id && lane.verdict !== 'clean'),
  )
  if (lanes.length === 0) return undefined
  return (
    <div>
      <h3 className={styles.sub}>{say('After the work')}</h3>
      <LaneTable lanes={lanes} />
    </div>
  )
}
