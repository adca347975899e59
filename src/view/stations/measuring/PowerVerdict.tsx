/** Whether to power the card: the verdict in sight, with its reasons, each leading to its line. */
import { counted } from '../../../base/index.ts'
import { CircleHelp, ShieldCheck, ShieldX } from 'lucide-react'
import { lineKey, type LineName, lineWords, type PowerJudgement, type PowerReason } from '../../../measure/index.ts'
import { goToStation } from '../../actions/goToStation.ts'
import { LinkButton } from '../../controls/Button.tsx'
import { Opening } from '../../controls/pieces.tsx'
import { useDesk, useScreen } from '../../stores/hooks.ts'
import { usePowerJudgement } from '../../stores/measuring.ts'
import { AFTER_SHEET_ID } from './fieldOrder.ts'
import own from './measuring.module.css'

const symbols = { safe: ShieldCheck, 'not-safe': ShieldX, 'not-known': CircleHelp } as const
/** The weightiest come first; with more the first field of the sheet would be out of sight. */
const MOST_SHOWN = 2

export function PowerVerdict() {
  const judgement = usePowerJudgement()
  if (judgement === undefined) return undefined
  const { verdict, words, reasons } = judgement
  const Symbol = symbols[verdict]
  const [shown, more] = [reasons.slice(0, MOST_SHOWN), reasons.slice(MOST_SHOWN)]
  return (
    <section className={own.power} data-verdict={verdict} aria-label="Safe to power?">
      <h3 id={AFTER_SHEET_ID} tabIndex={-1} aria-live="polite">
        <Symbol size={19} aria-hidden="true" />
        {words}
      </h3>
      <Reasons reasons={shown} />
      {more.length > 0 && (
        <Opening summary={counted(more.length, 'more reason')}>
          <Reasons reasons={more} />
        </Opening>
      )}
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

const weights = { against: 'Against: ', unknown: 'Not known: ', note: '' } as const

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
          go to {lineWords(line)}
        </LinkButton>
      )}
    </>
  )
}

function focusLine(line: LineName): void {
  const fields = document.querySelectorAll<HTMLInputElement>('input[data-measuring="ohms"]')
  const field = [...fields].find((each) => each.dataset['line'] === lineKey(line))
  field?.closest('details')?.setAttribute('open', '')
  field?.focus()
  field?.scrollIntoView({ block: 'center' })
}
