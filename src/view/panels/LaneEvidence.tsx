/** A lane's evidence: every bit with its errors, which way they fall, and the balls that carry it. */
import { say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { useTally } from '../stores/hooks.ts'
import { LaneTag } from './LaneRows.tsx'
import { FactRow } from './FactRow.tsx'
import { Picks } from './Picks.tsx'
import { ProofEvidence } from './ProofEvidence.tsx'
import styles from '../controls/panel.module.css'

export function LaneEvidence({ model, id }: { readonly model: BoardModel; readonly id: string }) {
  const tally = useTally()
  const lane = model.laneById.get(id)
  if (lane === undefined) return <p>{say('{id} is not on this board.', { id })}</p>
  const counted = tally?.parts
    .flatMap((part) => part.channels.flatMap((channel) => channel.lanes))
    .find((entry) => entry.id === id)
  const isTested = counted !== undefined && counted.state !== 'untested'
  const bits = Array.from({ length: lane.bitCount }, (_, bit) => bit)
  return (
    <>
      <div className={styles.heading}>
        <h3 className={styles.sub}>{say('Lane {id}', { id })}</h3>
        <LaneTag tally={counted} />
      </div>
      <dl className={styles.facts}>
        <FactRow name={say('channel')} value={lane.channel} />
        <FactRow name={say('memory region')} value={lane.memoryRegion} />
        {lane.coreRegion !== undefined && <FactRow name={say('core region')} value={lane.coreRegion} />}
      </dl>
      <Picks kind="part" ids={model.core === undefined ? [lane.part] : [lane.part, model.core.ref]} />
      <table className={styles.table}>
        <caption className="visually-hidden">{say('Errors of each data bit of lane {id}', { id })}</caption>
        <thead>
          <tr>
            <th scope="col">{say('bit')}</th>
            <th scope="col">{say('memory ball')}</th>
            <th scope="col" className={styles.number}>
              {say('errors')}
            </th>
            <th scope="col" className={styles.number}>
              {say('0 read as 1')}
            </th>
            <th scope="col" className={styles.number}>
              {say('1 read as 0')}
            </th>
          </tr>
        </thead>
        <tbody>
          {bits.map((bit) => (
            <tr key={bit}>
              <th scope="row">{lane.firstBit + bit}</th>
              <td>{lane.memoryBalls[bit] ?? say('not known')}</td>
              <td className={styles.number}>{isTested ? (counted.bits[bit] ?? 0) : ''}</td>
              <td className={styles.number}>{isTested ? (counted.high[bit] ?? 0) : ''}</td>
              <td className={styles.number}>{isTested ? (counted.low[bit] ?? 0) : ''}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <ProofEvidence id={id} />
    </>
  )
}
