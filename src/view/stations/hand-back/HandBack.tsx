/** Hand-back: how it ended and on which day in sight, everything else one press behind a line that says what it holds. */
import type { ReactNode } from 'react'
import { money, say } from '../../../base/index.ts'
import { billOf, type Case, chargedOf } from '../../../case/index.ts'
import { today } from '../../actions/clock.ts'
import { Opening } from '../../controls/pieces.tsx'
import { StationCautions } from '../../controls/StationCautions.tsx'
import panel from '../../controls/panel.module.css'
import { FollowUp, followUpSummary } from '../../quote/FollowUp.tsx'
import { invoiceSummary } from '../../quote/InvoiceForm.tsx'
import { LimitWarning } from '../../quote/LimitWarning.tsx'
import { QuoteForm, quoteSummary } from '../../quote/QuoteForm.tsx'
import { usePresent, useScreen, useShopDetails } from '../../stores/hooks.ts'
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
  const goneTo = useScreen((screen) => screen.goneTo)
  if (present === undefined) return undefined
  const { handBack, quote, invoice } = present
  const later = followUpSummary(present, followUpWeeks, today())
  return (
    <>
      <section className={panel.section} aria-label={say('Hand-back')}>
        <div className={panel.heading}>
          <h2>{say('Hand-back')}</h2>
        </div>
        <LimitWarning />
        <Ending />
        <StationCautions station="hand-back" title={say('Before it leaves')} />
      </section>
      <section className={styles.holds} aria-label={say('What it holds')}>
        <Behind name={say('Quote')} holds={quoteSummary(quote, handBack.currency)} open={goneTo === 'quote'}>
          <QuoteForm />
        </Behind>
        <Behind name={say('What was done')} holds={doneWords(handBack)}>
          <WhatWasDone />
        </Behind>
        <Behind name={say('What was wrong')} holds={wrongWords(handBack.causes)}>
          <WhatItWas />
        </Behind>
        <Behind
          name={invoice === undefined ? say('Parts and price') : say('Invoice')}
          holds={invoice === undefined ? priceWords(present) : invoiceSummary(invoice, handBack.currency)}
        >
          <Money />
        </Behind>
        <Behind
          name={say('Advice to the owner')}
          holds={handBack.advice.trim() === '' ? say('nothing yet') : say('written')}
        >
          <Advice />
        </Behind>
        {later !== undefined && (
          <Behind name={say('Asking later')} holds={later}>
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
  /** It was gone to. */
  readonly open?: boolean
  readonly children: ReactNode
}

function Behind({ name, holds, open = false, children }: BehindProps) {
  const summary = (
    <>
      <b>{name}</b> <span>{holds}</span>
    </>
  )
  return (
    <Opening summary={summary} open={open}>
      <div className={panel.section}>{children}</div>
    </Opening>
  )
}

function doneWords({ done, minutes }: Case['handBack']): string {
  const time = minutes === undefined ? say('no time noted') : minutesWords(minutes)
  return done.trim() === '' ? say('not written, {time}', { time }) : say('written, {time}', { time })
}

const settledWords = {
  all: say('confirmed'),
  some: say('partly known'),
  'nothing-wrong': say('the card was sound'),
} as const

const wrongWords = (causes: Case['handBack']['causes']): string =>
  causes?.settled === undefined ? say('not confirmed') : settledWords[causes.settled]

function priceWords(present: Case): string {
  const { currency, usedParts } = present.handBack
  const charged = chargedOf(present)
  const { sum } = billOf({ caseFile: present })
  if (charged !== undefined) return say('{charged} charged', { charged: money(charged, currency) })
  if (sum === 0) return say('nothing yet')
  return say('{sum} so far, {length, plural, one {# part} other {# parts}}', {
    sum: money(sum, currency),
    length: usedParts.length,
  })
}
