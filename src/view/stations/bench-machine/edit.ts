/** What the bench machine shows goes into the case: a look before and after the work, firmware, soak tests. */
import {
  type BenchMachine,
  type BenchPhase,
  type Case,
  emptyLook,
  type Firmware,
  type Look,
} from '../../../case/index.ts'
import { editCase } from '../../actions/edit.ts'
import type { Desk } from '../../stores/desk.ts'

const nothing: BenchMachine = { soaks: [] }

/** @param joinKey steps in a row with the same key count as one for undo */
function editMachine(desk: Desk, change: (machine: BenchMachine) => BenchMachine, joinKey?: string): void {
  editCase(desk, (c) => ({ ...c, benchMachine: change(c.benchMachine ?? nothing) }), joinKey)
}

export const lookOf = ({ benchMachine }: Pick<Case, 'benchMachine'>, phase: BenchPhase): Look =>
  benchMachine?.[phase] ?? emptyLook

/** @param joinKey of what is typed; a choice is a step of its own */
export function editLook(desk: Desk, phase: BenchPhase, change: (look: Look) => Look, joinKey?: string): void {
  const key = joinKey === undefined ? undefined : `bench machine ${phase} ${joinKey}`
  editMachine(desk, (machine) => ({ ...machine, [phase]: change(machine[phase] ?? emptyLook) }), key)
}

const noFirmware: Firmware = { saved: 'unknown', where: '', written: 'unknown' }

export const firmwareOf = ({ benchMachine }: Pick<Case, 'benchMachine'>): Firmware =>
  benchMachine?.firmware ?? noFirmware

export const editFirmware = (desk: Desk, change: Partial<Firmware>): void =>
  editMachine(
    desk,
    (machine) => ({ ...machine, firmware: { ...(machine.firmware ?? noFirmware), ...change } }),
    change.where === undefined ? undefined : 'firmware where',
  )

export const addSoak = (desk: Desk, soak: BenchMachine['soaks'][number]): void =>
  editMachine(desk, (machine) => ({ ...machine, soaks: [...machine.soaks, soak].slice(-100) }))

export const removeSoak = (desk: Desk, at: number): void =>
  editMachine(desk, (machine) => ({ ...machine, soaks: machine.soaks.filter((_, i) => i !== at) }))
