/** Whether to power the card: the verdict in one line, its reasons a press behind it; what forbids power stays in sight. */
import { say } from '../../../base/index.ts'
import { ChevronDown, ChevronUp, CircleHelp, ShieldCheck, ShieldX } from 'lucide-react'
import { useId, useState } from 'react'
import { lineKey, type LineName, lineWords, type PowerJudgement, type PowerReason } from '../../../measure/index.ts'
import { goToStation } from '../../actions/goToStation.ts'
import { LinkButton } from '../../controls/Button.tsx'
import { useDesk, useScreen } from '../../stores/hooks.ts'
import { usePowerJudgement } from '../../stores/measuring.ts'
import { AFTER_SHEET_ID, focusField } from './fieldOrder.ts'
import own from './measuring.module.css'

const symbols = { safe: ShieldCheck, 'not-safe': ShieldX, 'not-known': CircleHelp } as const

export function PowerVerdict() {
  const judgement = usePowerJudgement()
  const [open, setOpen] = useState(false)
  const id = useId()
  if (judgement === undefined) return undefined
  const { verdict, words, reasons } = judgement
  const Symbol = symbols[verdict]
  const Turn = open ? ChevronUp : ChevronDown
  const forbidding = verdict === 'not-safe' ? reasons.filter(({ weight }) => weight === 'against').slice(0, 1) : []
  const shown = open ? reasons : forbidding
  const behind = reasons.length - forbidding.length
  const more =
    forbidding.length === 0
      ? say('{behind, plural, one {# reason} other {# reasons}}', { behind })
      : say('{behind, plural, one {# more reason} other {# more reasons}}', { behind })
  return (
    <section className={own.power} data-verdict={verdict} aria-label={say('Safe to power?')}>
      <h3 aria-live="polite">
        <button
          type="button"
          id={AFTER_SHEET_ID}
          aria-expanded={open}
          aria-controls={id}
          onClick={() => setOpen((now) => !now)}
        >
          <Symbol size={19} aria-hidden="true" />
          <span>{words}</span>
          {behind > 0 && <small>{more}</small>}
          {behind > 0 && <Turn size={15} aria-hidden="true" />}
        </button>
      </h3>
      <div id={id}>{shown.length > 0 && <Reasons reasons={shown} />}</div>
    </section>
  )
}

function Reasons({ reasons }: { readonly reasons: PowerJudgement['reasons'] }) {
  return (
    <ul className={own.reasons}>
      {reasons.map((reason) => (
        <li key={reason.sentence} data-weight={reason.weight}>
          <Reason reason={reason} />
        </li>
      ))}
    </ul>
  )
}

const weights = { against: say('Against: '), unknown: say('Not known: '), note: '' } as const

function Reason({ reason }: { readonly reason: PowerReason }) {
  const desk = useDesk()
  const station = useScreen((screen) => screen.station)
  const [line] = reason.lines
  return (
    <>
      <b>{weights[reason.weight]}</b>
      {reason.sentence}{' '}
      {line !== undefined && (
        <LinkButton
          onClick={() => {
            if (station !== 'cold-measuring') goToStation(desk, 'cold-measuring')
            requestAnimationFrame(() => requestAnimationFrame(() => focusLine(line)))
          }}
        >
          {say('go to {line}', { line: lineWords(line) })}
        </LinkButton>
      )}
    </>
  )
}

function focusLine(line: LineName): void {
  const fields = document.querySelectorAll<HTMLInputElement>('input[data-measuring="ohms"]')
  const field = [...fields].find((each) => each.dataset['line'] === lineKey(line))
  if (field === undefined) return
  focusField(field)
  field.scrollIntoView({ block: 'center' })
}
