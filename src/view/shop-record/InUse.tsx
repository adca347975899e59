/** Which cards count, and the switch that puts their figures in place of the shipped ones. */
import { useState } from 'react'
import { type Fault, numberWords, say } from '../../base/index.ts'
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
    <section className={panel.section} aria-label={say('Cards that count')}>
      <h2 className={panel.sub}>{cardsWords(own, pooled)}</h2>
      <p className={panel.quiet}>
        {say(
          'A card counts once its case has an outcome and what was wrong with it is confirmed at the hand-back. Demo cases and good cards that were only measured do not.',
        )}{' '}
        {closed.unconfirmed > 0 &&
          say('{unconfirmed, plural, one {# closed case} other {# closed cases}} still to be confirmed. ', {
            unconfirmed: closed.unconfirmed,
          })}
        {closed.cards.length > own &&
          say(
            '{length, plural, one {# card} other {# cards}} with a cause still unknown: only lifts, minutes and looks count. ',
            { length: closed.cards.length - own },
          )}
        {closed.unreadable > 0 &&
          say('{unreadable, plural, one {# closed case} other {# closed cases}} could not be read.', {
            unreadable: closed.unreadable,
          })}
      </p>
      <Tick
        label={say('Use this record in place of the shipped figures, for cards that are still open')}
        checked={choice.inUse}
        onChange={(inUse) => void change(inUse)}
      />
      <p className={panel.quiet} aria-live="polite">
        {choice.inUse
          ? say(
              'In use. What a case changes itself comes before it, and the station of the suspects says so. A case never learns from itself.',
            )
          : say('Not in use: every case is judged with the shipped figures.')}
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
    own === 0
      ? say('No closed card counts yet')
      : say('{own, plural, one {# closed card} other {# closed cards}} {own, plural, one {counts} other {count}}', {
          own,
        })
  return pooled === 0 ? ours : say('{ours}, and {pooled} of other shops', { ours, pooled: numberWords(pooled) })
}
