/** At the plan and at hand-back: how much of what the owner agreed to is spent, in one line, before work goes past it and after. */
import { say } from '../../base/index.ts'
import { TriangleAlert } from 'lucide-react'
import { useState } from 'react'
import { answerWords, type LimitState, limitWords } from '../../case/index.ts'
import { goToStation } from '../actions/goToStation.ts'
import { AmountField } from '../controls/AmountField.tsx'
import { Button, LinkButton } from '../controls/Button.tsx'
import { TextField } from '../controls/fields.tsx'
import panel from '../controls/panel.module.css'
import { FiguredText } from '../figures/index.ts'
import { useDesk, usePresent, useScreen } from '../stores/hooks.ts'
import { editQuote, noteReason } from './quoting.ts'
import styles from './quote.module.css'
import { useLimit } from './useLimit.ts'

export function LimitWarning() {
  const desk = useDesk()
  const quote = usePresent()?.quote
  const currency = usePresent()?.handBack.currency ?? ''
  const atPlan = useScreen((screen) => screen.station === 'plan')
  const limit = useLimit()
  if (quote?.answer === 'declined')
    return (
      <p className={styles.line} role="status">
        {say('The owner {answer}: nothing more is to be done.', { answer: answerWords(quote, currency) })}{' '}
        {atPlan && <LinkButton onClick={() => goToStation(desk, 'hand-back')}>{say('Hand it back')}</LinkButton>}
      </p>
    )
  if (quote === undefined && atPlan)
    return (
      <p className={panel.quiet}>
        <LinkButton onClick={() => goToStation(desk, 'hand-back', 'quote')}>{say('Quote the owner')}</LinkButton>
      </p>
    )
  if (limit === undefined) return undefined
  if (limit.state === 'within')
    return (
      <p className={panel.quiet}>
        <FiguredText words={limitWords(limit, currency)} of={{ kind: 'limit' }} />
      </p>
    )
  return <PastLimit key={limit.limit} limit={limit} currency={currency} />
}

interface PastLimitProps {
  readonly limit: LimitState
  readonly currency: string
}

/** Either the owner agreed to more, or it is said why not. */
function PastLimit({ limit, currency }: PastLimitProps) {
  const desk = useDesk()
  const reasons = usePresent()?.quote?.pastLimit ?? []
  const given = reasons.find((each) => each.limit === limit.limit)
  return (
    <section className={styles.past} aria-label={say('Past the agreed limit')}>
      <p className={styles.warning} role="alert">
        <TriangleAlert size={15} aria-hidden="true" />{' '}
        <FiguredText words={limitWords(limit, currency)} of={{ kind: 'limit' }} />
      </p>
      {given === undefined ? (
        <Ways limit={limit} />
      ) : (
        <p className={panel.quiet}>{say('Reason: {reason}', { reason: given.reason })}</p>
      )}
      {given !== undefined && limit.state === 'past' && (
        <LinkButton onClick={() => editQuote(desk, { pastLimit: reasons.filter((each) => each !== given) })}>
          {say('Change the reason')}
        </LinkButton>
      )}
    </section>
  )
}

function Ways({ limit }: { readonly limit: LimitState }) {
  const desk = useDesk()
  const [more, setMore] = useState<number>()
  const [reason, setReason] = useState('')
  const raised = more !== undefined && more > limit.limit
  return (
    <div className={styles.ways}>
      <AmountField label={say('Owner agrees to')} value={more} onChange={setMore} />
      <Button disabled={!raised} onClick={() => more !== undefined && editQuote(desk, { limit: more })}>
        {say('New limit')}
      </Button>
      <TextField label={say('Or reason')} maxLength={1000} value={reason} onChange={setReason} />
      <Button disabled={reason.trim() === ''} onClick={() => noteReason(desk, limit.limit, limit.after, reason.trim())}>
        {say('Note it')}
      </Button>
    </div>
  )
}
