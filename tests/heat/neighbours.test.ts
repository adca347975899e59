/** Lifting a part spares what stands beside it, on every shipped board, as removal guides and measured reworks ask. */
import { describe, expect, test } from 'vitest'
import { type HeatRun, heatAssumptions, isNearHarm, sheetStack } from '../../src/heat/index.ts'
import type { BoardModel } from '../../src/board/index.ts'
import { liftOf } from '../support/kept-answers.ts'
import { coolPart } from '../support/part-heat.ts'
import { SHIPPED, shippedBoard } from '../support/read-board.ts'

const packages = (model: BoardModel, { parts }: HeatRun, but: string) =>
  parts.filter(({ ref }) => ref !== but && model.partByRef.get(ref)?.kind === 'memory')

describe.each(SHIPPED)('%s', (name) => {
  const model = shippedBoard(name)
  const core = model.core?.ref ?? ''

  test('no memory package melts through while the core is lifted, and each stays within its class', () => {
    const run = liftOf(model, core)
    const { liquidusC } = heatAssumptions.alloys.SAC305
    for (const { jointPeakC, overLimit } of packages(model, run, core)) {
      expect(jointPeakC).toBeLessThan(liquidusC)
      expect(overLimit).toBe(false)
    }
  })
  test('the board is preheated to at most 170 °C before the air comes', () => {
    // Bottom heat brings the site to 160 to 170 °C: a general note on rework, common practice. Two kelvin for the grid.
    const { frames, setting } = liftOf(model, core)
    const before = frames.filter(({ timeS }) => timeS <= setting.preheatS)
    const hottest = before.map(({ boardC }) => boardC.reduce((most, c) => (c > most ? c : most), 0))
    expect(Math.max(...hottest)).toBeLessThan(172)
  })
  test('packages 30 mm and more away stay below 200 °C while a memory package is lifted', () => {
    // Removal guides keep neighbours under 180 to 200 °C; joints of neighbours cracked from 195 °C at their middle on:
    // Ismail et al., Scientific Reports 12, 15118 (2022), abstract.
    const [first] = model.memories
    if (first === undefined) throw new Error('a board without memory')
    const run = liftOf(model, first.ref)
    const { at } = first.placement
    const far = packages(model, run, first.ref).filter(({ ref }) => {
      const place = model.partByRef.get(ref)?.placement.at ?? at
      return Math.hypot(place.x - at.x, place.y - at.y) >= 30
    })
    expect(far.length).toBeGreaterThan(0)
    expect(Math.max(...far.map(({ jointPeakC }) => jointPeakC))).toBeLessThan(200)
  })
})

test('tracks carry no heat in the plane, and a plane with holes less than its share of copper', () => {
  // Graebner and Azar, J. Heat Transfer 119(3), 401-405 (1997), abstract: continuous layers count, surface tracks hardly.
  const stack = (fill: number): number =>
    sheetStack({ thicknessMm: 1.6, copper: [{ name: 'one', thicknessUm: 35, fill }] }).conductanceWPerK
  const whole = stack(1) - stack(0)
  expect(stack(0.2)).toBeLessThan(stack(0) + 0.01 * whole)
  // A sheet with a fifth punched out by round holes conducts 2/3 of a whole one: Rayleigh, Phil. Mag. 34 (1892).
  expect((stack(0.8) - stack(0)) / whole).toBeCloseTo(2 / 3, 2)
})

describe('what is said of a package beside a site', () => {
  test('near harm within 20 K of the limit of its body, or where its joints may crack, else not', () => {
    expect(isNearHarm(coolPart('U2'))).toBe(false)
    expect(isNearHarm(coolPart('U2', { bodyPeakC: 239 }))).toBe(false)
    expect(isNearHarm(coolPart('U2', { bodyPeakC: 241 }))).toBe(true)
    expect(isNearHarm(coolPart('U2', { mayCrack: true }))).toBe(true)
  })
  test('its joints may crack from 195 °C on, as long as they do not melt; chip parts are not meant', () => {
    // Ismail et al., Scientific Reports 12, 15118 (2022), abstract.
    const model = shippedBoard('hitch-12')
    const run = liftOf(model, model.core?.ref ?? '')
    for (const { ref, jointPeakC, melts, mayCrack } of run.parts) {
      const isPackage = ['memory', 'core'].includes(model.partByRef.get(ref)?.kind ?? '')
      expect(mayCrack).toBe(isPackage && jointPeakC >= 195 && !melts)
    }
  })
})
