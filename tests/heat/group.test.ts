/** Several parts under one nozzle: every limit holds on each of them, or it is said that no setting lifts them together. */
import { describe, expect, test } from 'vitest'
import {
  defaultEquipment,
  type Equipment,
  exposureOf,
  findSetting,
  heatAssumptions,
  type HeatRun,
  type SettingWish,
  simulate,
} from '../../src/heat/index.ts'
import { boardWith, packageAt, thermal, twoPackages, value } from '../support/heat-board.ts'

const small: Equipment = { ...defaultEquipment, nozzles: defaultEquipment.nozzles.filter(({ sizeMm }) => sizeMm <= 32) }
const pair: SettingWish = { ref: 'U1', together: ['U2'], equipment: small, cellMm: 2 }

function runFor(model: ReturnType<typeof twoPackages>, wish: SettingWish): HeatRun {
  const answer = value(findSetting(model, wish))
  if (!('run' in answer)) throw new Error(answer.cannot.join(' '))
  return answer.run
}

function cannotFor(model: ReturnType<typeof twoPackages>, wish: SettingWish): string {
  const answer = value(findSetting(model, wish))
  return 'cannot' in answer ? answer.cannot.join(' ') : ''
}

test('a setting for two packages lifts both inside of every limit, on a finer grid too', () => {
  const model = twoPackages()
  const { setting } = runFor(model, { ref: 'U1', together: ['U2'], equipment: small })
  // Bodies of 12 by 14 mm at x = 40 and 55: 34 … 61 mm, so the middle is at 47.5 and 27 mm have to be covered.
  expect(setting.at).toEqual({ x: 47.5, y: 35 })
  expect(setting.nozzle.name).toBe('square 32')
  const run = value(simulate(thermal(model, { cellMm: 0.5 }), setting))
  const { liquidusC } = heatAssumptions.alloys.SAC305
  // Every joint is liquid, for the 30 s that it takes to wet again (common practice, no source); ramp and the longest time
  // above liquidus: J-STD-020D/E Table 5-2. Two kelvin and three seconds are left to the grid.
  for (const ref of ['U1', 'U2']) {
    const heat = run.parts.find((part) => part.ref === ref)
    expect(heat?.coldestJointPeakC).toBeGreaterThan(liquidusC + 1)
    expect(heat?.jointPeakC).toBeLessThan(liquidusC + 39)
    expect(heat?.maxRampCPerS).toBeLessThanOrEqual(3.1)
    expect(heat?.coldestAboveLiquidusS).toBeGreaterThan(27)
    expect(heat?.aboveLiquidusS).toBeLessThan(153)
    expect(heat?.overLimit).toBe(false)
  }
})

describe('how the group is named', () => {
  test('does not matter for the setting', () => {
    const model = twoPackages()
    const other = runFor(model, { ...pair, ref: 'U2', together: ['U1'] })
    expect(other.setting).toEqual(runFor(model, pair).setting)
  })
  test('a part together with itself is that part alone', () => {
    const model = twoPackages()
    const alone = { ref: 'U1', equipment: small, cellMm: 2 }
    expect(runFor(model, { ...alone, together: ['U1'] }).setting).toEqual(runFor(model, alone).setting)
  })
  test('parts that are not there, or on the other side, are faults of their own', () => {
    const model = boardWith([packageAt('U1', 40, 35), packageAt('U2', 55, 35, { side: 'bottom' })])
    const found = findSetting(model, { ...pair, together: ['U2', 'U99'] })
    expect(found.ok ? [] : found.faults.map(({ path, found: what }) => `${path} ${what}`)).toEqual([
      '$.together[0] U2 on the bottom',
      '$.together[1] U99',
    ])
  })
})

describe('what can’t be lifted together', () => {
  test('tin-lead beside lead-free: the one must stay below 220 °C while the other needs more than 230 °C', () => {
    // Both figures as removal guides give them: common practice, no source.
    const mixed = boardWith([
      packageAt('U1', 40, 35, { jointAlloy: 'Sn63Pb37' }),
      packageAt('U2', 55, 35, { jointAlloy: 'SAC305' }),
    ])
    expect(cannotFor(mixed, pair)).toMatch(/hottest joint passes the allowed peak/)
  })
  test('a second part whose body bears less than its own solder needs', () => {
    const tender = boardWith([packageAt('U1', 40, 35), packageAt('U2', 55, 35, { maxBodyC: 225 })])
    expect(cannotFor(tender, pair)).toMatch(/body passes its limit/)
    expect(cannotFor(tender, { ref: 'U1', equipment: small, cellMm: 2 })).toBe('')
  })
  test('a group that no nozzle covers', () => {
    const narrow = { ...small, nozzles: small.nozzles.filter(({ sizeMm }) => sizeMm < 27) }
    expect(cannotFor(twoPackages(), { ...pair, equipment: narrow })).toMatch(/nozzle that covers them all is missing/)
  })
})

test('an exposure of a group names all parts but its targets', () => {
  const model = boardWith([packageAt('U1', 30, 35), packageAt('U2', 45, 35), packageAt('U3', 70, 35)])
  const exposure = value(exposureOf(model, { target: 'U1', together: ['U2'], equipment: small }))
  expect(exposure.target).toBe('U1 U2')
  expect(exposure.neighbours.map(({ ref }) => ref)).toEqual(['U3'])
})

test('a stopped search answers with a fault', () => {
  const found = findSetting(twoPackages(), { ...pair, signal: { aborted: true } })
  expect(found.ok ? '' : found.faults[0]?.path).toBe('$.signal')
})
