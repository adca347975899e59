/** Power on the record: given with the verdict, or against it with a typed reason, which is asked for once it is to be logged. */
import { Power } from 'lucide-react'
import { useId, useRef, useState } from 'react'
import { flushSync } from 'react-dom'
import { say, sayFault } from '../../../base/index.ts'
import type { PowerUp } from '../../../measure/index.ts'
import { notePower } from './measure.ts'
import { momentWords } from '../../actions/clock.ts'
import { Button } from '../../controls/Button.tsx'
import { saidAround } from '../../controls/saidAround.ts'
import { Opening } from '../../controls/pieces.tsx'
import controls from '../../controls/controls.module.css'
import styles from '../../controls/panel.module.css'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import { usePowerJudgement } from '../../stores/measuring.ts'
import own from './measuring.module.css'

export function GivePower() {
  const desk = useDesk()
  const present = usePresent()
  const judgement = usePowerJudgement()
  const id = useId()
  const field = useRef<HTMLTextAreaElement>(null)
  const [against, setAgainst] = useState('')
  const [isAsked, setAsked] = useState(false)
  const [wrong, setWrong] = useState<string>()
  if (present === undefined || judgement === undefined) return undefined
  const needsReason = judgement.verdict !== 'safe'
  const note = (): void => {
    const noted = notePower(desk, judgement, against)
    if (noted.ok) {
      setAgainst('')
      setAsked(false)
      setWrong(undefined)
      return
    }
    flushSync(() => {
      setAsked(true)
      setWrong(noted.faults.map(({ todo, ...fault }) => todo ?? sayFault(fault)).join(' '))
    })
    field.current?.focus()
  }
  return (
    <section className={styles.section} aria-label={say('Power given')}>
      {needsReason && isAsked && (
        <div className={controls.field}>
          <label className={controls.label} htmlFor={id}>
            {say('Reason for powering it anyway')}
          </label>
          <textarea
            ref={field}
            id={id}
            rows={2}
            maxLength={2000}
            className={controls.input}
            value={against}
            aria-invalid={wrong !== undefined}
            aria-describedby={`${id}-about`}
            onChange={(event) => {
              setAgainst(event.target.value)
              setWrong(undefined)
            }}
          />
          <p
            className={wrong === undefined ? controls.hint : controls.wrong}
            id={`${id}-about`}
            role={wrong === undefined ? undefined : 'alert'}
          >
            {wrong ?? say('It stays on the record, with the verdict and its reasons as they are now.')}
          </p>
        </div>
      )}
      <div className={styles.row}>
        <Button tone={needsReason ? 'plain' : 'strong'} onClick={note}>
          <Power size={15} aria-hidden="true" /> {say('Log power-up')}
        </Button>
        {needsReason && !isAsked && <span className={styles.quiet}>{say('asks for your reason')}</span>}
      </div>
      {present.powerUps.length > 0 && <PowerList powerUps={present.powerUps} />}
    </section>
  )
}

const verdictWords = {
  safe: say('nothing spoke against it'),
  'not-safe': say('not safe'),
  'not-known': say('not known'),
} as const

function PowerList({ powerUps }: { readonly powerUps: readonly PowerUp[] }) {
  return (
    <Opening summary={summaryOf(powerUps)}>
      <ol className={own.powerUps} aria-label={say('Power given so far')}>
        {powerUps.map(({ at, verdict, reasons, against }, i) => (
          // oxlint-disable-next-line react/no-array-index-key -- entries are only ever added at the end
          <li key={i}>
            <span>
              {saidAround('{time}: verdict then {verdict}.', {
                time: <b>{at === undefined ? say('Time not noted') : momentWords(at)}</b>,
                verdict: verdictWords[verdict],
              })}
            </span>
            {against !== undefined && <> {saidAround('Given because: {reason}', { reason: <q>{against}</q> })}</>}
            {verdict !== 'safe' && reasons[0] !== undefined && <small>{reasons[0]}</small>}
          </li>
        ))}
      </ol>
    </Opening>
  )
}

function summaryOf(powerUps: readonly PowerUp[]): string {
  const last = powerUps.at(-1)
  const times = powerUps.length === 1 ? say('Powered once') : say('Powered {length} times', { length: powerUps.length })
  return last === undefined
    ? times
    : say('{times}; verdict then: {verdict}', { times, verdict: verdictWords[last.verdict] })
}
