/** What is measured goes into the case: readings, power given, what the host sees, a card known to be good. */
import type { Result } from '../../../base/index.ts'
import type { Case } from '../../../case/index.ts'
import {
  type LineName,
  lineKey,
  type Measurement,
  type Phase,
  type PowerJudgement,
  type PowerUp,
  powerUpOf,
  type Quantity,
} from '../../../measure/index.ts'
import type { Desk } from '../../stores/desk.ts'
import { meterStoreOf } from '../../stores/meterStore.ts'
import { editCase } from '../../actions/edit.ts'

const now = (): string => new Date().toISOString()

/** As many as a case file takes. */
const MOST_READINGS = 5000

/** One more reading of a line; the last one counts, and those before it stay on the record. */
export function enterReading(desk: Desk, entry: Omit<Measurement, 'at'>): void {
  editCase(desk, (c) => ({
    ...c,
    measurements: [
      ...c.measurements,
      { ...entry, ...stateOf(c, entry), typed: entry.typed.slice(0, 80), at: now() },
    ].slice(-MOST_READINGS),
  }))
}

/** What the card does meanwhile goes with a voltage. */
const stateOf = (
  { powered: { state } }: Case,
  { quantity }: Pick<Measurement, 'quantity'>,
): Pick<Measurement, 'state'> => (quantity === 'volts' && state !== 'unknown' ? { state } : {})

/** All readings of a line in that phase go; undo brings them back. */
export function takeBackReadings(desk: Desk, line: LineName, quantity: Quantity, phase: Phase): void {
  const isIt = (each: Measurement): boolean =>
    lineKey(each.line) === lineKey(line) && each.quantity === quantity && each.phase === phase
  editCase(desk, (c) => ({ ...c, measurements: c.measurements.filter((each) => !isIt(each)) }))
}

/** @returns a fault where power goes against the verdict without a reason; then nothing is noted */
export function notePower(desk: Desk, judgement: PowerJudgement, against: string): Result<PowerUp> {
  const power = powerUpOf(judgement, against, now())
  if (power.ok) editCase(desk, (c) => ({ ...c, powerUps: [...c.powerUps, power.value] }))
  return power
}

export const editPowered = (desk: Desk, change: Partial<Case['powered']>): void =>
  editCase(desk, (c) => ({ ...c, powered: { ...c.powered, ...change } }), `powered ${Object.keys(change).join()}`)

export const editInputCurrent = (desk: Desk, inputCurrentA: number | undefined): void =>
  editCase(
    desk,
    (c) => {
      const { inputCurrentA: _, ...rest } = c.powered
      return { ...c, powered: inputCurrentA === undefined ? rest : { ...rest, inputCurrentA } }
    },
    'powered inputCurrentA',
  )

export const editLimit = (desk: Desk, limitA: number | undefined): void =>
  editCase(
    desk,
    (c) => {
      const { limitA: _, ...rest } = c.powered
      return { ...c, powered: limitA === undefined || limitA <= 0 ? rest : { ...rest, limitA } }
    },
    'powered limitA',
  )

/** Undefined: two wires, and nobody took off what they read. */
export const setLeads = (desk: Desk, leads: Case['leads']): void =>
  editCase(
    desk,
    (c) => {
      const { leads: _, ...rest } = c
      return leads === undefined ? rest : { ...rest, leads }
    },
    leads?.ohm === undefined ? undefined : 'leads ohm',
  )

/** A supply that is read apart from its rail; one of that name takes the place of the one before. */
export const addSupply = (desk: Desk, supply: Case['supplies'][number]): void =>
  editCase(desk, (c) => ({
    ...c,
    supplies: [...c.supplies.filter(({ name }) => name !== supply.name), supply].slice(-40),
  }))

/** Its readings stay on the record. */
export const removeSupply = (desk: Desk, name: string): void =>
  editCase(desk, (c) => ({ ...c, supplies: c.supplies.filter((each) => each.name !== name) }))

export const setGoodCard = (desk: Desk, goodCard: boolean): void => editCase(desk, (c) => ({ ...c, goodCard }))

/** The board was cleaned and dried, which takes care of every mark that is on it now. */
export function setCleaned(desk: Desk, done: boolean): void {
  editCase(desk, (c) => {
    const { cleaned, ...rest } = c
    if (!done) return rest
    return { ...rest, cleaned: { at: now(), marks: c.marks.map(({ id }) => id), note: cleaned?.note ?? '' } }
  })
}

export const editCleaned = (desk: Desk, note: string): void =>
  editCase(desk, (c) => (c.cleaned === undefined ? c : { ...c, cleaned: { ...c.cleaned, note } }), 'cleaned note')

export const choosePhase = (desk: Desk, chosen: Phase): void =>
  meterStoreOf(desk).setState({ phase: { ofCase: desk.cases.getState().id, chosen } })
