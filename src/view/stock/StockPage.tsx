/** Parts: what the card on the desk needs, what the shop has and has on order, donors, and bins of lifted parts. */
import { useState } from 'react'
import { type Fault, type Result, say } from '../../base/index.ts'
import type { StockDraft, StockItem } from '../../case/index.ts'
import { FaultRow } from '../controls/FileMessages.tsx'
import files from '../controls/files.module.css'
import { BinsOfCard } from './BinsOfCard.tsx'
import { Donors } from './Donors.tsx'
import { Need } from './Need.tsx'
import { StockList } from './StockList.tsx'
import styles from './stock.module.css'
import { useStock } from './useStock.ts'

/** A line that stands in the list, or one that does not yet. */
export type Draft = { readonly line: StockItem } | { readonly line?: undefined; readonly fresh: Omit<StockDraft, 'id'> }
/** Says what was refused. */
export type Tell = (result: Promise<Result<unknown>>) => void

export function StockPage() {
  const { stock, faults } = useStock()
  const [refused, setRefused] = useState<readonly Fault[]>([])
  const [draft, setDraft] = useState<Draft>()
  const tell: Tell = (result) =>
    void result.then((done) => {
      setRefused(done.ok ? [] : done.faults)
    })
  const told = [...faults, ...refused]
  const listed = stock?.items.filter(({ removedOn }) => removedOn === undefined) ?? []
  return (
    <div className={styles.page}>
      {told.length > 0 && (
        <ul className={files.faults} role="alert">
          {told.map((fault) => (
            <FaultRow key={`${fault.path} ${fault.found}`} fault={fault} />
          ))}
        </ul>
      )}
      {stock === undefined ? (
        faults.length === 0 && <p role="status">{say('The stock is being read.')}</p>
      ) : (
        <>
          <Need items={listed} tell={tell} onOrder={setDraft} />
          <BinsOfCard />
          <StockList stock={{ ...stock, items: listed }} draft={draft} setDraft={setDraft} tell={tell} />
          <Donors items={stock.items} tell={tell} />
        </>
      )}
    </div>
  )
}
