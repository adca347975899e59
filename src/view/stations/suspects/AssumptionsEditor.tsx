/** The figures that the reasoning rests on, each with its reason and source; a changed one can be set back. */
import { say, sayName } from '../../../base/index.ts'
import { useId, useState } from 'react'
import {
  assumptionsSchema,
  shippedAssumptions,
  withAssumptions,
  type AssumptionOverrides,
} from '../../../suspects/index.ts'
import { assumptionsInForce, type Case } from '../../../case/index.ts'
import { editCase } from '../../actions/edit.ts'
import { Button, LinkButton } from '../../controls/Button.tsx'
import { numberIn, whichNumber } from '../../controls/fields.tsx'
import controls from '../../controls/controls.module.css'
import { Opening } from '../../controls/pieces.tsx'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import styles from '../../controls/stations.module.css'

const sections = [
  { name: 'prior', title: say('How often each cause occurs'), most: 1 },
  { name: 'fails', title: say('How surely a lane fails then'), most: 1 },
  { name: 'evidence', title: say('How far inspection and meter are to be trusted'), most: 1 },
  { name: 'cost', title: say('Minutes a lift takes in all'), most: 1e4 },
  { name: 'risk', title: say('Risk of damage in lifting'), most: 1 },
] as const

type Section = (typeof sections)[number]['name']

export function AssumptionsEditor() {
  const desk = useDesk()
  const present = usePresent()
  const overrides = present?.assumptions
  const learnt = present?.ownRecord?.figures
  return (
    <div>
      {sections.map(({ name, title, most }) => (
        <Opening key={name} summary={title}>
          {Object.entries(shippedAssumptions[name] ?? {}).map(([key, { reason, source }]) => (
            <Figure
              key={key}
              section={name}
              name={key}
              reason={`${reason} (${source})`}
              most={most}
              overrides={overrides}
              learnt={learnt}
            />
          ))}
        </Opening>
      ))}
      {overrides !== undefined && (
        <Button onClick={() => editCase(desk, asShipped)}>
          {learnt === undefined
            ? say('Set all back to the shipped figures')
            : say('Set all back to the figures of the shop’s own record')}
        </Button>
      )}
    </div>
  )
}

interface FigureProps {
  readonly section: Section
  readonly name: string
  readonly reason: string
  readonly most: number
  readonly overrides: AssumptionOverrides | undefined
  /** Of the shop's own record, where it is used. */
  readonly learnt: AssumptionOverrides | undefined
}

function Figure({ section, name, reason, most, overrides, learnt }: FigureProps) {
  const desk = useDesk()
  const id = useId()
  const inForce = learnt === undefined ? overrides : merged(learnt, overrides)
  const value = numberAt(withAssumptions(inForce)[section], name)
  const changed = numberAt(overrides?.[section] ?? {}, name) !== undefined
  const fromRecord = numberAt(learnt?.[section] ?? {}, name) !== undefined
  const [wrong, setWrong] = useState('')
  const shown = value === undefined ? undefined : Number(value.toPrecision(4))
  const set = (typed: string): void => {
    if (typed === String(shown)) return setWrong('')
    const next = numberIn(typed)
    if (next === undefined || next < 0 || next > most) {
      setWrong(
        whichNumber(typed) ??
          say('A number from 0 to {most}. Until then {value} counts.', {
            most,
            value: value ?? say('the figure of before'),
          }),
      )
      return
    }
    setWrong('')
    editCase(
      desk,
      (c) => ({ ...c, assumptions: withFigure(c.assumptions, section, name, next) }),
      `assume ${section} ${name}`,
    )
  }
  return (
    <div className={styles.assumption} data-changed={changed}>
      <label htmlFor={id}>{sayName(name)}</label>
      <input
        id={id}
        key={String(value)}
        className={controls.input}
        inputMode="decimal"
        defaultValue={shown}
        aria-invalid={wrong !== ''}
        aria-describedby={wrong === '' ? `${id}-why` : `${id}-wrong ${id}-why`}
        onBlur={(event) => set(event.target.value)}
        onKeyDown={(event) => event.key === 'Enter' && set(event.currentTarget.value)}
      />
      {wrong !== '' && (
        <p id={`${id}-wrong`} className={controls.wrong}>
          {wrong}
        </p>
      )}
      <p id={`${id}-why`}>
        {reason}
        {fromRecord &&
          !changed &&
          say('. From the shop’s own record; {shipped} ships.', { shipped: shippedWords(section, name) })}
      </p>
      {changed && (
        <LinkButton
          onClick={() =>
            editCase(desk, (c) => ({ ...c, assumptions: withFigure(c.assumptions, section, name, undefined) }))
          }
        >
          {say('set back')}
        </LinkButton>
      )}
    </div>
  )
}

const merged = (learnt: AssumptionOverrides, assumptions: AssumptionOverrides | undefined) =>
  assumptionsInForce({ ownRecord: { cards: 0, boardAlone: false, figures: learnt }, assumptions })

const shippedWords = (section: Section, name: string): string =>
  String(numberAt(withAssumptions(undefined)[section], name) ?? say('figure'))

function numberAt(record: object, key: string): number | undefined {
  const value: unknown = Object.hasOwn(record, key) ? Reflect.get(record, key) : undefined
  return typeof value === 'number' ? value : undefined
}

/** The overrides with one figure set, or taken out; what the schema refuses changes nothing. */
function withFigure(
  overrides: AssumptionOverrides | undefined,
  section: Section,
  name: string,
  value: number | undefined,
): AssumptionOverrides | undefined {
  const { [name]: _, ...others }: Record<string, unknown> = { ...overrides?.[section] }
  const parsed = assumptionsSchema.safeParse({
    ...overrides,
    [section]: value === undefined ? others : { ...others, [name]: value },
  })
  return parsed.success ? parsed.data : overrides
}

function asShipped(present: Case): Case {
  const { assumptions: _, ...rest } = present
  return rest
}
