/** Which cards count, and the switch that puts their figures in place of the shipped ones. */
import { useState } from 'react'
import { type Fault, counted } from '../../base/index.ts'
import { putInUse } from '../actions/ownRecord.ts'
import { Tick } from '../controls/fields.tsx'
import { FaultRow } from '../controls/FileMessages.tsx'
import files from '../controls/files.module.css'
import panel from '../controls/panel.module.css'
import { useDesk } from '../stores/hooks.ts'
import type { ShownRecord } from './useShopRecord.ts'

export function InUse({ shown: { closed, choice, record } }: { readonly shown: ShownRecord }) {
  const desk = useDesk()
  const [faults, setFaults] = useState<readonly Fault[]>([])
  const own = record.own.all.cards
  const pooled = record.pools.reduce((sum, { all }) => sum + all.cards, 0)
  const change = async (inUse: boolean): Promise<void> => {
    const kept = await putInUse(desk, inUse)
    setFaults(kept.ok ? [] : kept.faults)
  }
  return (
    <section className={panel.section} aria-label="Cards that count">
      <h2 className={panel.sub}>{cardsWords(own, pooled)}</h2>
      <p className={panel.quiet}>
        A card counts once its case has an outcome and what was wrong with it is confirmed at the hand-back. Demo cases
        and good cards that were only measured do not.{' '}
        {closed.unconfirmed > 0 && `${counted(closed.unconfirmed, 'closed case')} still to be confirmed. `}
        {closed.cards.length > own &&
          `${counted(closed.cards.length - own, 'card')} with a cause still unknown: only lifts, minutes and looks count. `}
        {closed.unreadable > 0 && `${counted(closed.unreadable, 'closed case')} could not be read.`}
      </p>
      <Tick
        label="Use this record in place of the shipped figures, for cards that are still open"
        checked={choice.inUse}
        onChange={(inUse) => void change(inUse)}
      />
      <p className={panel.quiet} aria-live="polite">
        {choice.inUse
          ? 'In use. What a case changes itself comes before it, and the station of the suspects says so. A case never learns from itself.'
          : 'Not in use: every case is judged with the shipped figures.'}
      </p>
      {faults.length > 0 && (
        <ul className={files.faults} role="alert">
          {faults.map((fault) => (
            <FaultRow key={fault.found} fault={fault} />
          ))}
        </ul>
      )}
    </section>
  )
}

function cardsWords(own: number, pooled: number): string {
  const ours =
    own === 0 ? 'No closed card counts yet' : `${counted(own, 'closed card')} ${own === 1 ? 'counts' : 'count'}`
  return pooled === 0 ? ours : `${ours}, and ${pooled.toLocaleString('en')} of other shops`
}
