/** Where to put the probe next and why, and the field that its millivolts go into: Enter takes it and moves on. */
import { say } from '../../../../base/index.ts'
import { Crosshair } from 'lucide-react'
import { useState } from 'react'
import { parseMillivolt, type ProbePlace, type ShortAnswer, type ShortHunt } from '../../../../measure/index.ts'
import { addReading, choosePlace, MILLIVOLT_FIELD_ID, takeProbe } from './short.ts'
import { Button } from '../../../controls/Button.tsx'
import controls from '../../../controls/controls.module.css'
import { SelectField } from '../../../controls/fields.tsx'
import styles from '../../../controls/panel.module.css'
import { useDesk, useScreen } from '../../../stores/hooks.ts'
import { useNextPlace, useShort } from './shortView.ts'
import { paragraph } from '../../../stores/words.ts'
import own from './short.module.css'

interface NextReadingProps {
  readonly hunt: ShortHunt
  readonly answer: ShortAnswer | undefined
}

export function NextReading({ hunt, answer }: NextReadingProps) {
  const desk = useDesk()
  const place = useNextPlace(answer)
  const chosen = useShort((state) => state.place)
  const working = useShort((state) => state.state === 'working')
  const inHand = useScreen((screen) => screen.tool === 'probe')
  const pointing = useShort((state) => state.pointing === 'reading')
  const suggested = answer?.next
  return (
    <div className={own.next} role="group" aria-label={say('Next reading')}>
      <p role="status">
        {place === undefined ? (
          working ? (
            say('Working out where to probe …')
          ) : (
            say('Choose a point of the rail on the sheet.')
          )
        ) : chosen === undefined ? (
          <>
            <strong>
              {suggested?.worthwhile === false
                ? say('Read enough')
                : say('Probe next: {label}', { label: place.label })}
            </strong>
          </>
        ) : (
          <strong>{say('Your point: {label}', { label: place.label })}</strong>
        )}
      </p>
      {chosen === undefined && suggested !== undefined && <p>{paragraph([suggested.why])}</p>}
      <PlaceField answer={answer} place={place} />
      <Entry hunt={hunt} place={place} />
      <div className={styles.row}>
        <Button
          aria-pressed={inHand && pointing}
          tone={inHand && pointing ? 'strong' : 'plain'}
          onClick={() => takeProbe(desk, 'reading')}
        >
          <Crosshair size={15} aria-hidden="true" /> {say('Point at it on the sheet')}
        </Button>
        {chosen !== undefined && (
          <Button onClick={() => choosePlace(desk, undefined)}>{say('Back to the suggested point')}</Button>
        )}
      </div>
    </div>
  )
}

/** All points that a probe reaches, the suggested one first. */
function PlaceField({
  answer,
  place,
}: {
  readonly answer: ShortAnswer | undefined
  readonly place: ProbePlace | undefined
}) {
  const desk = useDesk()
  if (answer === undefined || place === undefined) return undefined
  const isListed = answer.places.some((each) => keyOf(each) === keyOf(place))
  const all = isListed ? answer.places : [place, ...answer.places]
  const options = all.map((each) => ({
    value: keyOf(each),
    words: each.label === answer.next?.label ? say('{label} (suggested)', { label: each.label }) : each.label,
  }))
  return (
    <SelectField
      label={say('Point')}
      value={keyOf(place)}
      options={options}
      onChange={(key) =>
        choosePlace(
          desk,
          all.find((each) => keyOf(each) === key),
        )
      }
    />
  )
}

const keyOf = ({ at }: ProbePlace): string => `${at.x} ${at.y}`

function Entry({ hunt, place }: { readonly hunt: ShortHunt; readonly place: ProbePlace | undefined }) {
  const desk = useDesk()
  const [typed, setTyped] = useState('')
  const [wrong, setWrong] = useState(false)
  const take = (): void => {
    const millivolt = parseMillivolt(typed)
    setWrong(millivolt === undefined)
    if (millivolt === undefined || place === undefined) return
    addReading(desk, hunt.id, place.at, millivolt)
    setTyped('')
    document.getElementById(MILLIVOLT_FIELD_ID)?.focus()
  }
  return (
    <form
      className={own.entry}
      onSubmit={(event) => {
        event.preventDefault()
        take()
      }}
    >
      <div className={controls.field}>
        <label className={controls.label} htmlFor={MILLIVOLT_FIELD_ID}>
          {say('Millivolts there')}
        </label>
        <input
          id={MILLIVOLT_FIELD_ID}
          className={controls.input}
          value={typed}
          inputMode="decimal"
          autoComplete="off"
          aria-invalid={wrong}
          aria-describedby={`${MILLIVOLT_FIELD_ID}-${wrong ? 'wrong' : 'hint'}`}
          onChange={(event) => {
            setTyped(event.target.value)
            setWrong(false)
          }}
        />
      </div>
      <Button tone="strong" type="submit" disabled={place === undefined}>
        {say('Take it')}
      </Button>
      {!wrong && (
        <p className={controls.hint} id={`${MILLIVOLT_FIELD_ID}-hint`} style={{ gridColumn: '1 / -1' }}>
          {say('12.4, 12,4m or 0.0124 V; at a part, its end on {rail}. Enter takes it and names the next point.', {
            rail: hunt.rail,
          })}
        </p>
      )}
      {wrong && (
        <p className={own.wrong} id={`${MILLIVOLT_FIELD_ID}-wrong`}>
          {say('Not a voltage: type 12.4 for millivolts, or 0.0124 V.')}
        </p>
      )}
    </form>
  )
}
