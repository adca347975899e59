/** The shop's own record: whether it is used, how right Liftmap was, what closed cards taught, counts of other shops. */
import { say } from '../../base/index.ts'
import { FaultRow } from '../controls/FileMessages.tsx'
import files from '../controls/files.module.css'
import { DueFollowUps } from './DueFollowUps.tsx'
import { HowRight } from './HowRight.tsx'
import { InUse } from './InUse.tsx'
import { Learnt } from './Learnt.tsx'
import { Pools } from './Pools.tsx'
import styles from './shopRecord.module.css'
import { useShopRecord } from './useShopRecord.ts'

export function ShopRecordPage() {
  const { shown, faults } = useShopRecord()
  return (
    <>
      {faults.length > 0 && (
        <ul className={files.faults} role="alert">
          {faults.map((fault) => (
            <FaultRow key={`${fault.path} ${fault.found}`} fault={fault} />
          ))}
        </ul>
      )}
      {shown === undefined ? (
        faults.length === 0 && (
          <p className={styles.waiting} role="status">
            {say('Closed cases are being read.')}
          </p>
        )
      ) : (
        <div className={styles.columns}>
          <div className={styles.column}>
            <InUse shown={shown} />
            <DueFollowUps />
            <HowRight cards={shown.closed.cards} />
          </div>
          <div className={styles.column}>
            <Learnt record={shown.record} />
            <Pools shown={shown} />
          </div>
        </div>
      )}
    </>
  )
}
