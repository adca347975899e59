/** The quote: worked out from the proposal, told the owner, and what the owner answered. */
import { useState } from 'react'
import { type Fault, percent, say } from '../../base/index.ts'
import {
  answeredHow,
  answeredHowWords,
  answerWords,
  daysWords,
  type Quote,
  quoteAnswers,
  quoteAnswerWords,
  rangeWords,
} from '../../case/index.ts'
import { AmountField } from '../controls/AmountField.tsx'
import { Button } from '../controls/Button.tsx'
import { Choice, DayField, SelectField, TextField } from '../controls/fields.tsx'
import { FaultRow } from '../controls/FileMessages.tsx'
import files from '../controls/files.module.css'
import { Opening } from '../controls/pieces.tsx'
import { optionsOf } from '../optionsOf.ts'
import panel from '../controls/panel.module.css'
import { FiguredText } from '../figures/index.ts'
import { useDesk, usePresent } from '../stores/hooks.ts'
import { answerQuote, askForRange, clearInQuote, editQuote, giveQuote, takeBackQuote } from './quoting.ts'
import styles from './quote.module.css'

/** In a few words, for the line that opens the form. */
export function quoteSummary(quote: Quote | undefined, currency: string): string {
  return quote === undefined ? say('none given') : `${rangeWords(quote, currency)}, ${answerWords(quote, currency)}`
}

export function QuoteForm() {
  const quote = usePresent()?.quote
  return quote === undefined ? <NewQuote /> : <GivenQuote quote={quote} />
}

function NewQuote() {
  const desk = useDesk()
  const [asking, setAsking] = useState(false)
  const [lacks, setLacks] = useState(false)
  const [faults, setFaults] = useState<readonly Fault[]>([])
  const ask = async (): Promise<void> => {
    setAsking(true)
    const range = await askForRange(desk)
    setAsking(false)
    setFaults(range.ok ? [] : range.faults)
    setLacks(range.ok && range.value === undefined)
    if (range.ok && range.value !== undefined) giveQuote(desk, range.value)
  }
  return (
    <div className={styles.form}>
      <div className={panel.row}>
        <Button tone="strong" disabled={asking} onClick={() => void ask()}>
          {asking ? say('Working it out') : say('Work out the range')}
        </Button>
        <Button onClick={() => giveQuote(desk, nothingReckoned)}>{say('Enter it by hand')}</Button>
      </div>
      <p className={panel.quiet} role="status">
        {lacks
          ? say('Nothing to reckon with: it takes a memory run that fails, and no work that is still untested.')
          : ''}
      </p>
      {faults.length > 0 && (
        <ul className={files.faults} role="alert">
          {faults.map((fault) => (
            <FaultRow key={fault.found} fault={fault} />
          ))}
        </ul>
      )}
    </div>
  )
}

const nothingReckoned = { low: 0, expected: 0, high: 0, daysLow: 1, daysHigh: 1 }

function GivenQuote({ quote }: { readonly quote: Quote }) {
  const desk = useDesk()
  return (
    <div className={styles.form}>
      <div className={styles.three}>
        <AmountField
          label={say('From')}
          value={quote.low}
          onChange={(low) => low !== undefined && editQuote(desk, { low })}
        />
        <AmountField
          label={say('To')}
          value={quote.high}
          onChange={(high) => high !== undefined && editQuote(desk, { high })}
        />
        <AmountField
          label={say('On average')}
          value={quote.expected}
          onChange={(expected) => expected !== undefined && editQuote(desk, { expected })}
        />
      </div>
      <p className={panel.quiet}>
        {daysWords(quote)}
        {quote.works !== undefined && (
          <FiguredText
            words={say(', works after it: {chance}', { chance: percent(quote.works) })}
            of={{ kind: 'quote' }}
          />
        )}
        {quote.taxPct > 0 && say(', with {taxPct} % tax', { taxPct: quote.taxPct })}
      </p>
      <Answer quote={quote} />
      <Opening summary={say('Days, and if it turns out worse')}>
        <Terms quote={quote} />
      </Opening>
    </div>
  )
}

const answers = optionsOf(quoteAnswers, quoteAnswerWords)
const ways = [{ value: '', words: say('not noted') }, ...optionsOf(answeredHow, answeredHowWords)] as const

function Answer({ quote }: { readonly quote: Quote }) {
  const desk = useDesk()
  const { answer, limit, answeredOn, answeredBy, how } = quote
  return (
    <>
      <Choice
        label={say('The owner’s answer')}
        value={answer}
        options={answers}
        onChange={(next) => answerQuote(desk, next)}
      />
      {answer !== 'open' && (
        <div className={panel.two}>
          {answer === 'agreed' && (
            <AmountField
              label={say('At most')}
              value={limit}
              onChange={(next) => (next === undefined ? clearInQuote(desk, 'limit') : editQuote(desk, { limit: next }))}
            />
          )}
          <DayField
            label={say('On')}
            value={answeredOn}
            onChange={(on) =>
              on === undefined ? clearInQuote(desk, 'answeredOn') : editQuote(desk, { answeredOn: on })
            }
          />
          <SelectField
            label={say('How')}
            value={how ?? ''}
            options={ways}
            onChange={(next) => (next === '' ? clearInQuote(desk, 'how') : editQuote(desk, { how: next }))}
          />
          <TextField
            label={say('Who')}
            maxLength={200}
            value={answeredBy}
            onChange={(next) => editQuote(desk, { answeredBy: next })}
          />
        </div>
      )}
    </>
  )
}

function Terms({ quote }: { readonly quote: Quote }) {
  const desk = useDesk()
  const days = (value: number | undefined): number | undefined => (value === undefined ? undefined : Math.round(value))
  return (
    <div className={styles.form}>
      <div className={panel.two}>
        <AmountField
          label={say('Days from')}
          most={3650}
          value={quote.daysLow}
          onChange={(next) => next !== undefined && editQuote(desk, { daysLow: days(next) ?? 0 })}
        />
        <AmountField
          label={say('Days to')}
          most={3650}
          value={quote.daysHigh}
          onChange={(next) => next !== undefined && editQuote(desk, { daysHigh: days(next) ?? 0 })}
        />
        <DayField
          label={say('Holds until')}
          value={quote.validUntil}
          onChange={(next) =>
            next === undefined ? clearInQuote(desk, 'validUntil') : editQuote(desk, { validUntil: next })
          }
        />
      </div>
      <TextField
        label={say('If it turns out worse')}
        long
        maxLength={2000}
        value={quote.ifWorse}
        onChange={(ifWorse) => editQuote(desk, { ifWorse })}
      />
      <div className={panel.row}>
        <Button tone="quiet" onClick={() => takeBackQuote(desk)}>
          {say('Remove the quote')}
        </Button>
      </div>
    </div>
  )
}
