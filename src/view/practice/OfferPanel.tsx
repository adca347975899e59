/** What can be done, by kind of work; each with its minutes before one clicks. Places follow the part chosen on the map. */
import { say } from '../../base/index.ts'
import { useState } from 'react'
import type { Offer, OfferGroup, PracticeView } from '../../rehearsal/index.ts'
import { Choice } from '../controls/fields.tsx'
import panel from '../controls/panel.module.css'
import type { Selection } from '../sheet/index.ts'
import { Caution, OfferRow } from './OfferRow.tsx'
import { groupWords } from './words.ts'
import styles from './practice.module.css'

type Shown = Exclude<OfferGroup, 'run'>
const shownGroups: readonly Shown[] = ['measure', 'look', 'try', 'lift', 'put-right']

interface OfferPanelProps {
  readonly view: PracticeView
  readonly busy: boolean
  readonly selection: Selection | undefined
  readonly onSelect: (selection: Selection | undefined) => void
}

export function OfferPanel({ view, busy, selection, onSelect }: OfferPanelProps) {
  const [group, setGroup] = useState<Shown>('measure')
  const kinds = kindsOf(view.offers.filter((offer) => offer.group === group))
  const shared = sharedCaution(kinds)
  const run = view.offers.filter((offer) => offer.group === 'run')
  return (
    <section className={panel.section} aria-label={say('What to do')}>
      <h3 className={panel.sub}>
        {say('What to do')}
        {selection?.kind === 'part' && say(' at {id}', { id: selection.id })}
      </h3>
      {selection?.kind !== 'part' && (
        <p className={panel.quiet}>{say('Choose a part on the map, or a place in the lists.')}</p>
      )}
      <ul className={styles.offers} aria-label={say('Test')}>
        <OfferRow offers={run} verb={say('Run the test')} busy={busy} selection={undefined} onSelect={onSelect} />
      </ul>
      <Choice
        label={say('Kind of work')}
        labelHidden
        value={group}
        options={shownGroups.map((value) => ({ value, words: groupWords[value].name }))}
        onChange={setGroup}
      />
      <Caution words={shared} />
      <ul className={styles.offers} aria-label={groupWords[group].name}>
        {kinds.map(([what, offers]) => (
          <OfferRow
            key={what}
            offers={offers}
            verb={groupWords[group].verb}
            busy={busy}
            selection={selection}
            onSelect={onSelect}
            cautioned={shared !== undefined}
          />
        ))}
      </ul>
    </section>
  )
}

/** The caution of all of them, where it is one and the same. */
function sharedCaution(kinds: readonly [string, Offer[]][]): string | undefined {
  const cautions = new Set(kinds.map(([, offers]) => offers[0]?.caution))
  return kinds.length > 1 && cautions.size === 1 ? [...cautions][0] : undefined
}

function kindsOf(offers: readonly Offer[]): [string, Offer[]][] {
  const kinds = new Map<string, Offer[]>()
  for (const offer of offers) kinds.set(offer.what, [...(kinds.get(offer.what) ?? []), offer])
  return [...kinds]
}
