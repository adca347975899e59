/** Changes to what the intake desk takes down. */
import { type Case, codeFor, type ConsentKind, type Intake, intakeOf } from '../../../case/index.ts'
import { today } from '../../actions/clock.ts'
import { editCase } from '../../actions/edit.ts'
import { randomId } from '../../shelf/memoryShelf.ts'
import type { Desk } from '../../stores/desk.ts'

export const editIntake = (desk: Desk, change: Partial<Intake>): void =>
  editCase(desk, (c) => ({ ...c, intake: { ...intakeOf(c), ...change } }), `intake ${Object.keys(change).join()}`)

export const setDue = (desk: Desk, next: string | undefined): void =>
  editCase(
    desk,
    (c) => {
      const { due: _, ...rest } = intakeOf(c)
      return { ...c, intake: next === undefined ? rest : { ...rest, due: next } }
    },
    'intake due',
  )

export const setDiagnosisFee = (desk: Desk, next: number | undefined): void =>
  editCase(
    desk,
    (c) => {
      const { diagnosisFee: _, ...rest } = intakeOf(c)
      return { ...c, intake: next === undefined ? rest : { ...rest, diagnosisFee: next } }
    },
    'intake fee',
  )

/** @param on the day on which the owner agreed; undefined where not */
export function setConsent(desk: Desk, kind: ConsentKind, on: string | undefined): void {
  editCase(desk, (c) => {
    const intake = intakeOf(c)
    const { [kind]: _, ...others } = intake.consents
    return { ...c, intake: { ...intake, consents: on === undefined ? others : { ...others, [kind]: on } } }
  })
}

/** Agreed to now, or not any more. */
export const tickConsent = (desk: Desk, kind: ConsentKind, agreed: boolean): void =>
  setConsent(desk, kind, agreed ? today() : undefined)

/** A slip needs a code: a case gets it with its first slip, and keeps it. */
export function giveCode(desk: Desk): void {
  const { id, history } = desk.cases.getState()
  if (history === undefined || intakeOf(history.present).code !== undefined) return
  editIntake(desk, { code: codeFor(id ?? randomId()) })
}

export function withCard(present: Case, card: string): Case {
  const { card: _, ...rest } = present
  return card === '' ? rest : { ...rest, card }
}

export function withDay(arrival: Case['arrival'], on: string | undefined): Case['arrival'] {
  const { on: _, ...rest } = arrival
  return on === undefined ? rest : { ...rest, on }
}
