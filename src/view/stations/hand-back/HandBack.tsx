/** Hand-back: how it ended and on which day in sight, everything else one press behind a line that says what it holds. */
import type { ReactNode } from 'react'
import { counted, money } from '../../../base/index.ts'
import { billOf, type Case, chargedOf } from '../../../case/index.ts'
import { today } from '../../actions/clock.ts'
import { Opening } from '../../controls/pieces.tsx'
import { StationCautions } from '../../controls/StationCautions.tsx'
import panel from '../../controls/panel.module.css'
import { FollowUp, followUpSummary } from '../../quote/FollowUp.tsx'
import { invoiceSummary } from '../../quote/InvoiceForm.tsx'
import { LimitWarning } from '../../quote/LimitWarning.tsx'
import { QuoteForm, quoteSummary } from '../../quote/QuoteForm.tsx'
import { usePresent, useShopDetails } from '../../stores/hooks.ts'
import { minutesWords } from '../../stores/words.ts'
import { Advice } from './Advice.tsx'
import styles from './handback.module.css'
import { Money } from './Money.tsx'
import { Preview } from './Preview.tsx'
import { WhatItWas } from './WhatItWas.tsx'
import { Ending, WhatWasDone } from './WhatWasDone.tsx'

export function HandBack() {
  const present = usePresent()
  const { followUpWeeks } = useShopDetails()
  if (present === undefined) return undefined
  const { handBack, quote, invoice } = present
  const later = followUpSummary(present, followUpWeeks, today())
  return (
    <>
      <section className={panel.section} aria-label="Hand-back">
        <div className={panel.heading}>
          <h2>Hand-back</h2>
        </div>
        <LimitWarning />
        <Ending />
        <StationCautions station="hand-back" title="Before it leaves" />
      </section>
      <section className={styles.holds} aria-label="What it holds">
        <Behind name="Quote" holds={quoteSummary(quote, handBack.currency)}>
          <QuoteForm />
        </Behind>
        <Behind name="What was done" holds={doneWords(handBack)}>
          <WhatWasDone />
        </Behind>
        <Behind name="What was wrong" holds={wrongWords(handBack.causes)}>
          <WhatItWas />
        </Behind>
        <Behind
          name={invoice === undefined ? 'Parts and price' : 'Invoice'}
          holds={invoice === undefined ? priceWords(present) : invoiceSummary(invoice, handBack.currency)}
        >
          <Money />
        </Behind>
        <Behind name="Advice to the owner" holds={handBack.advice.trim() === '' ? 'none' : 'written'}>
          <Advice />
        </Behind>
        {later !== undefined && (
          <Behind name="Asking later" holds={later}>
            <FollowUp />
          </Behind>
        )}
      </section>
      <Preview />
    </>
  )
}

interface BehindProps {
  readonly name: string
  readonly holds: string
  readonly children: ReactNode
}

function Behind({ name, holds, children }: BehindProps) {
  const summary = (
    <>
      <b>{name}</b> <span>{holds}</span>
    </>
  )
  return (
    <Opening summary={summary}>
      <div className={panel.section}>{children}</div>
    </Opening>
  )
}

function doneWords({ done, minutes }: Case['handBack']): string {
  const time = minutes === undefined ? 'no time noted' : minutesWords(minutes)
  return done.trim() === '' ? `not written, ${time}` : `written, ${time}`
}

const settledWords = { all: 'confirmed', some: 'partly known', 'nothing-wrong': 'the card was sound' } as const

const wrongWords = (causes: Case['handBack']['causes']): string =>
  causes?.settled === undefined ? 'not confirmed' : settledWords[causes.settled]

function priceWords(present: Case): string {
  const { currency, usedParts } = present.handBack
  const charged = chargedOf(present)
  const { sum } = billOf({ caseFile: present })
  if (charged !== undefined) return `${money(charged, currency)} charged`
  if (sum === 0) return 'nothing yet'
  return `${money(sum, currency)} so far, ${counted(usedParts.length, 'part')}`
}
