/**
 * Putting a part on again has a window of its own. Profile of a rework station (rework note of a maker of stations, as the
 * domain notes quote it: 225 to 245 °C at the peak, above 220 °C for 40 to 70 s) and of a rework house (60 to 90 s above
 * liquidus at corner and centre balls): common practice, no source. Bodies: J-STD-020, tables of classification temperatures.
 */
import { describe, expect, test } from 'vitest'
import type { BoardModel } from '../../src/board/index.ts'
import {
  bodyLimitOf,
  defaultEquipment,
  exposureOf,
  findRefit,
  findSetting,
  heatLines,
  type HeatRun,
  type PartHeat,
} from '../../src/heat/index.ts'
import { boardWith, packageAt, value } from '../support/heat-board.ts'
import { shippedBoard } from '../support/read-board.ts'

const boards = (['bowline-8', 'splice-6'] as const).map((name) => [name, shippedBoard(name)] as const)

function refitted(model: BoardModel, ref: string): { run: HeatRun; short?: string | undefined; own: PartHeat } {
  const answer = value(findRefit(model, { ref, equipment: defaultEquipment }))
  if (!('run' in answer)) throw new Error(answer.cannot.join(' '))
  const own = answer.run.parts.find((part) => part.ref === ref)
  if (own === undefined) throw new Error(`${ref} has no joints`)
  return { ...answer, own }
}

const splice = shippedBoard('splice-6')

describe.each(boards)('on %s', (_, model) => {
  test('a memory package goes on inside the window of a rework station', () => {
    const { own, short } = refitted(model, model.memories[0]?.ref ?? '')
    // in the usual window, or in the cooler one where that spares a neighbour
    expect(short ?? 'beside it would melt').toContain('beside it would melt')
    expect(own.coldestJointPeakC).toBeGreaterThanOrEqual(225)
    expect(own.jointPeakC).toBeLessThanOrEqual(250)
    expect(own.coldestAboveLiquidusS).toBeGreaterThanOrEqual(40)
    expect(own.aboveLiquidusS).toBeLessThanOrEqual(120)
    expect(own.maxRampCPerS).toBeLessThanOrEqual(3)
  })
  test('the core’s joints form too, and its body stays within what it is classed for', () => {
    const core = model.core
    if (core === undefined) throw new Error('a board without a core')
    const { own, short } = refitted(model, core.ref)
    expect(own.coldestJointPeakC).toBeGreaterThanOrEqual(225)
    expect(own.coldestAboveLiquidusS).toBeGreaterThanOrEqual(40)
    expect(own.bodyPeakC).toBeLessThanOrEqual(bodyLimitOf(core))
    // What is cooler than usual is said.
    expect(short === undefined).toBe((own.coldestJointPeakC ?? 0) >= 230)
  })
})

describe('lift and refit', () => {
  const model = boardWith([packageAt('U1', 40, 35), packageAt('U2', 62, 35)])
  test('are two settings: to come off the joints are liquid and no more', () => {
    const lifted = value(findSetting(model, { ref: 'U1', equipment: defaultEquipment }))
    if (!('run' in lifted)) throw new Error(lifted.cannot.join(' '))
    const off = lifted.run.parts.find(({ ref }) => ref === 'U1')
    const { own } = refitted(model, 'U1')
    expect(off?.coldestJointPeakC).toBeLessThan(own.coldestJointPeakC ?? 0)
  })
  test('the refit goes through no wider nozzle where one as narrow as the lift’s makes it', () => {
    const exposure = value(exposureOf(splice, { target: 'U1', equipment: defaultEquipment }))
    const { refit } = exposure
    expect(refit?.setting.nozzle.sizeMm).toBeLessThanOrEqual(exposure.setting.nozzle.sizeMm)
    // with 60 mm beside a lift of 42 mm neighbours melted that the lift spares
    const melted = refit?.neighbours.filter(({ ref, melts }) => melts && splice.partByRef.get(ref)?.kind === 'memory')
    expect(melted).toEqual([])
  })
  test('a wider one than the lift’s is taken only where no narrower one is there, and said', () => {
    const equipment = { ...defaultEquipment, nozzles: defaultEquipment.nozzles.filter(({ sizeMm }) => sizeMm >= 12) }
    const answer = value(findRefit(model, { ref: 'U1', equipment, liftedWithMm: 8 }))
    if (!('run' in answer)) throw new Error(answer.cannot.join(' '))
    expect(answer.run.setting.nozzle.sizeMm).toBeGreaterThan(8)
    expect(answer.short).toContain('Wider nozzle than at the lift')
    const same = value(findRefit(model, { ref: 'U1', equipment, liftedWithMm: answer.run.setting.nozzle.sizeMm }))
    expect('short' in same ? same.short : undefined).toBeUndefined()
  })
  test('both stand in the exposure that the plan weighs, each with its own neighbours', () => {
    const exposure = value(exposureOf(model, { target: 'U1', equipment: defaultEquipment }))
    expect(exposure.refit?.setting).not.toEqual(exposure.setting)
    const beside = (parts: readonly PartHeat[] = []) => parts.find(({ ref }) => ref === 'U2')?.jointPeakC
    expect(beside(exposure.refit?.neighbours)).not.toBe(beside(exposure.neighbours))
  })
  test('what can’t be had in the usual window is told in the recipe', () => {
    const { run } = refitted(model, 'U1')
    const lines = heatLines({ setting: run.setting, handsOffUntilC: 180, short: 'a little less than usual' })
    expect(lines).toContain('a little less than usual')
  })
})
