/** One kind of action: where, what it takes, its caution, and the button; or why it can't be done there now. */
import { say } from '../../base/index.ts'
import { TriangleAlert } from 'lucide-react'
import { useId, useState } from 'react'
import { type Offer, workplaceSaid } from '../../rehearsal/index.ts'
import { doPractice } from '../actions/practice.ts'
import { Button } from '../controls/Button.tsx'
import { SelectField } from '../controls/fields.tsx'
import type { Selection } from '../sheet/index.ts'
import { useDesk } from '../stores/hooks.ts'
import { paidWords } from './words.ts'
import styles from './practice.module.css'

interface OfferRowProps {
  /** Of one kind, by place. */
  readonly offers: readonly Offer[]
  readonly verb: string
  readonly busy: boolean
  readonly selection: Selection | undefined
  readonly onSelect: (selection: Selection | undefined) => void
  /** Its caution stands above, with those of others that share it. */
  readonly cautioned?: boolean
}

export function OfferRow({ offers, verb, busy, selection, onSelect, cautioned = false }: OfferRowProps) {
  const desk = useDesk()
  const refusedId = useId()
  const [chosen, setChosen] = useState<{ readonly at: string; readonly over: string | undefined }>()
  const ref = selection?.kind === 'part' ? selection.id : undefined
  const offer = shownOffer(offers, chosen !== undefined && chosen.over === ref ? chosen.at : undefined, ref)
  if (offer === undefined) return undefined
  const choose = (at: string): void => {
    const refs = offers.find((each) => each.at === at)?.refs ?? []
    const [first] = refs
    // the map shows where it is; where the chosen part belongs to the place it stays chosen
    const next = first === undefined || (ref !== undefined && refs.includes(ref)) ? ref : first
    if (next !== undefined && next !== ref) onSelect({ kind: 'part', id: next })
    setChosen({ at, over: next })
  }
  return (
    <li>
      <div className={styles.offer} data-one={offers.length === 1}>
        <p>{offer.words}</p>
        {offers.length > 1 && (
          <SelectField
            label={say('Where: {words}', { words: offer.words })}
            labelHidden
            value={offer.at}
            options={offers.map(({ at, refused }) => ({
              value: at,
              words: refused === undefined ? workplaceSaid(at) : say('{at} (not now)', { at: workplaceSaid(at) }),
            }))}
            onChange={choose}
          />
        )}
        <span className={styles.paid}>{paidWords(offer.minutes, offer.money)}</span>
        <Button
          disabled={busy || offer.refused !== undefined}
          aria-label={`${verb}: ${offer.words}`}
          aria-describedby={offer.refused === undefined ? undefined : refusedId}
          onClick={() => void doPractice(desk, offer.action)}
        >
          {verb}
        </Button>
      </div>
      {offer.refused !== undefined && (
        <p className={styles.refused} id={refusedId}>
          {offer.refused}
        </p>
      )}
      {!cautioned && <Caution words={offer.caution} />}
    </li>
  )
}

export function Caution({ words }: { readonly words: string | undefined }) {
  if (words === undefined) return undefined
  return (
    <p className={styles.caution}>
      <TriangleAlert size={14} aria-hidden="true" /> <span>{words}</span>
    </p>
  )
}

/** The place that was chosen by hand; else one at the chosen part; else the first that can be done. */
function shownOffer(offers: readonly Offer[], chosen: string | undefined, ref: string | undefined): Offer | undefined {
  const possible = (list: readonly Offer[]): Offer | undefined =>
    list.find(({ refused }) => refused === undefined) ?? list[0]
  const byHand = offers.find(({ at }) => at === chosen)
  return byHand ?? possible(offers.filter(({ refs }) => ref !== undefined && refs.includes(ref))) ?? possible(offers)
}
