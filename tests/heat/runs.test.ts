/** Whole runs: energy is kept, the laws of heat hold, wrong input is refused. */
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  buildThermalBoard,
  type HeatRun,
  heatAssumptions,
  heatCautions,
  jetAt,
  type PartHeat,
  sheetStack,
  simulate,
  steady,
} from '../../src/heat/index.ts'
import { boardWith, packageAt, settingAt, thermal, twoPackages, value } from '../support/heat-board.ts'

const model = twoPackages()
const board = thermal(model, { cellMm: 2 })
const partOf = (run: HeatRun, ref: string): PartHeat => {
  const part = run.parts.find((each) => each.ref === ref)
  if (part === undefined) throw new Error(`no part ${ref}`)
  return part
}

describe('the stack', () => {
  test('layer form lies within 15 % of the published fit k = 0.8 + 350·Zcu/Z', () => {
    // Azar and Graebner, Experimental determination of thermal conductivity of printed wiring boards (1996), in the form of a reprint: 8 layers of 35 µm in 1.6 mm, ratio 0.175, give 62.05 W/mK.
    const copper = Array.from({ length: 8 }, (_, i) => ({ name: `${i}`, thicknessUm: 35, fill: 1 }))
    const kWPerMK = sheetStack({ thicknessMm: 1.6, copper }).conductanceWPerK / 1.6e-3
    expect(Math.abs(kWPerMK / 62.05 - 1)).toBeLessThan(0.15)
  })
  test('bare laminate stores 2.28 MJ/m³K (1900 kg/m³ times 1200 J/kgK, handbook figures of glass-epoxy, from memory)', () => {
    const copper = [{ name: 'none', thicknessUm: 1, fill: 0 }]
    expect(sheetStack({ thicknessMm: 1, copper }).capacityJPerM2K).toBeCloseTo(2280, 6)
  })
  test('a board without copper data takes the stated default and says so', () => {
    expect(sheetStack({ thicknessMm: 1.6, copper: [] }).notes[0]).toMatch(/gives no copper/)
    const bare = thermal(boardWith([packageAt('U1', 40, 35)], { copper: [] }))
    expect(value(simulate(bare, settingAt(40, 35))).notes.join(' ')).toMatch(/gives no copper/)
  })
})

test('a 12 mm nozzle averages 66 to 123 W/m²K over 30 mm, as the round-jet correlation at 5 to 15 m/s', () => {
  // Martin's correlation (VDI Heat Atlas, Incropera; from memory), computed for 24 mm distance and 300 °C air.
  const nozzle = { name: 'round 12', shape: 'round', sizeMm: 12 } as const
  let sum = 0
  const rings = 3000
  for (let k = 0; k < rings; k++) {
    const r = (30 * (k + 0.5)) / rings
    sum += jetAt({ nozzle, at: { x: 0, y: 0 } }, { x: r, y: 0 }).filmWPerM2K * 2 * r * (30 / rings)
  }
  expect(sum / 900).toBeGreaterThan(66)
  expect(sum / 900).toBeLessThan(123)
})

describe('a run', () => {
  const run = value(simulate(board, settingAt(40, 35)))

  test('keeps energy within 0.1 %', () => {
    const { inJ, storedJ, lostJ } = run.energy
    expect(inJ).toBeGreaterThan(1000)
    expect(Math.abs(inJ - storedJ - lostJ) / inJ).toBeLessThan(0.001)
  })
  test('keeps energy on a board with a cut-out, holes and parts over the edge', () => {
    const odd = boardWith([packageAt('U1', 40, 35), packageAt('U2', 88, 35)], {
      holes: [
        { at: { x: 20, y: 20 }, diameterMm: 5 },
        {
          polygon: [
            { x: 60, y: 10 },
            { x: 75, y: 12 },
            { x: 65, y: 25 },
          ],
        },
      ],
    })
    for (const stepS of [0.5, 1, 2]) {
      const { inJ, storedJ, lostJ } = value(simulate(thermal(odd), settingAt(40, 35), { stepS })).energy
      expect(Math.abs(inJ - storedJ - lostJ) / inJ).toBeLessThan(0.001)
    }
  })
  test('heats the target most, and its body more than its joints', () => {
    const [target, neighbour] = [partOf(run, 'U1'), partOf(run, 'U2')]
    expect(target.jointPeakC).toBeGreaterThan(neighbour.jointPeakC)
    expect(target.bodyPeakC).toBeGreaterThan(target.jointPeakC)
    expect(target.coldestJointPeakC).toBeLessThanOrEqual(target.jointPeakC)
  })
  test('is the same on cells of 1 mm and of 0.5 mm within 2 K', () => {
    const [coarse, fine] = [1, 0.5].map((cellMm) => value(simulate(thermal(model, { cellMm }), settingAt(40, 35))))
    if (coarse === undefined || fine === undefined) throw new Error('no run')
    for (const ref of ['U1', 'U2'])
      expect(Math.abs(partOf(coarse, ref).jointPeakC - partOf(fine, ref).jointPeakC)).toBeLessThan(2)
  })
  test('with steps of 1 s differs by less than 0.5 K from steps of 0.1 s', () => {
    const fine = value(simulate(board, settingAt(40, 35), { stepS: 0.1 }))
    for (const ref of ['U1', 'U2'])
      expect(Math.abs(partOf(run, ref).jointPeakC - partOf(fine, ref).jointPeakC)).toBeLessThan(0.5)
  })
  test('held for long ends where the steady solver says', () => {
    const setting = settingAt(40, 35, { preheatS: 1, airS: 3000 })
    const long = value(simulate(board, setting, { durationS: 3001, stepS: 5, keepEveryS: 3001 }))
    const end = long.frames.at(-1)?.boardC ?? new Float32Array()
    const field = value(steady(board, setting)).boardC
    const worst = field.reduce(
      (most, c, i) => (Number.isNaN(c) ? most : Math.max(most, Math.abs(c - (end[i] ?? 0)))),
      0,
    )
    expect(worst).toBeLessThan(0.1)
  })
  test('latent heat lowers the target’s peak, by less than 3 K, and delays it by no more than 5 s of melting', () => {
    const hot = settingAt(40, 35, { airC: 420 })
    const [wet, dry] = [true, false].map((latentHeat) => value(simulate(board, hot, { latentHeat })))
    if (wet === undefined || dry === undefined) throw new Error('no run')
    const [a, b] = [partOf(wet, 'U1'), partOf(dry, 'U1')]
    expect(a.melts && b.melts).toBe(true)
    expect(b.jointPeakC - a.jointPeakC).toBeGreaterThan(0)
    expect(b.jointPeakC - a.jointPeakC).toBeLessThan(3)
    const { inJ, storedJ, lostJ } = wet.energy
    expect(Math.abs(inJ - storedJ - lostJ) / inJ).toBeLessThan(0.001)
  })
  test('solder takes its heat up from its solidus on, and not before', () => {
    const hot = settingAt(40, 35, { airC: 420 })
    const [wet, dry] = [true, false].map(
      (latentHeat) => value(simulate(board, hot, { latentHeat })).curves.find(({ ref }) => ref === 'U1')?.jointC ?? [],
    )
    const first = [...(dry ?? [])].findIndex((dryC, i) => Math.abs(dryC - (wet?.[i] ?? 0)) > 0.01)
    // tin-silver-copper begins to melt at 217 °C (SAC305, NIST, Properties of Lead-Free Solders, 2002; from memory)
    expect(dry?.[first - 1]).toBeLessThan(217 + 3)
    expect(dry?.[first]).toBeGreaterThan(217)
  })
  test('tells its progress, and stops when told to', () => {
    const told: number[] = []
    simulate(board, settingAt(40, 35), { onProgress: (share) => told.push(share) })
    expect(told.at(-1)).toBeCloseTo(1, 9)
    const stopped = simulate(board, settingAt(40, 35), { signal: { aborted: true } })
    expect(stopped.ok).toBe(false)
  })
})

describe('laws that hold for any setting', () => {
  const settings = fc.record({
    preheatC: fc.integer({ min: 60, max: 300 }),
    airC: fc.integer({ min: 300, max: 500 }),
    x: fc.integer({ min: 20, max: 70 }),
    y: fc.integer({ min: 15, max: 55 }),
    sizeMm: fc.integer({ min: 5, max: 30 }),
  })
  const of = ({ x, y, sizeMm, ...rest }: { x: number; y: number; sizeMm: number; preheatC: number; airC: number }) =>
    settingAt(x, y, { ...rest, nozzle: { name: 'any', shape: 'round', sizeMm } })
  const refs = ['U1', 'U2']

  test('more preheat never lowers a peak', () => {
    fc.assert(
      fc.property(settings, fc.integer({ min: 1, max: 100 }), (given, more) => {
        const before = value(simulate(board, of(given)))
        const after = value(simulate(board, of({ ...given, preheatC: given.preheatC + more })))
        for (const ref of refs)
          expect(partOf(after, ref).jointPeakC).toBeGreaterThanOrEqual(partOf(before, ref).jointPeakC - 1e-3)
      }),
      { seed: 21, numRuns: 25 },
    )
  })
  test('a shield never raises the peak of the part under it where the jet is hotter than the plate (mixed air further off cools)', () => {
    const shielded = (['tape', 'heat-sink'] as const).map((kind) =>
      thermal(model, { cellMm: 2, shields: [{ ref: 'U2', kind }] }),
    )
    fc.assert(
      fc.property(settings, (given) => {
        const setting = of(given)
        const { riseShare } = jetAt(setting, { x: 61, y: given.y < 35 ? 42 : 28 })
        fc.pre(25 + (given.airC - 25) * heatAssumptions.jetDelivery.value * riseShare > given.preheatC)
        const plain = partOf(value(simulate(board, setting)), 'U2')
        for (const under of shielded) {
          const heat = partOf(value(simulate(under, setting)), 'U2')
          expect(heat.jointPeakC).toBeLessThanOrEqual(plain.jointPeakC + 1e-3)
          expect(heat.bodyPeakC).toBeLessThanOrEqual(plain.bodyPeakC + 1e-3)
        }
      }),
      { seed: 22, numRuns: 25 },
    )
  })
  test('no temperature leaves the range from the room to the hottest air', () => {
    fc.assert(
      fc.property(settings, (given) => {
        const run = value(simulate(board, of(given)))
        const most = Math.max(given.preheatC, 25 + (given.airC - 25) * heatAssumptions.jetDelivery.value)
        for (const { boardC } of run.frames) {
          for (const c of boardC) {
            if (Number.isNaN(c)) continue
            if (c < 24.9 || c > most + 0.1) throw new Error(`${c} °C is outside of 25 to ${most}`)
          }
        }
        for (const { bodyPeakC } of run.parts) expect(bodyPeakC).toBeLessThanOrEqual(most + 0.1)
      }),
      { seed: 23, numRuns: 25 },
    )
  })
})

describe('wrong input is refused in words', () => {
  const faultOf = (result: { ok: boolean; faults?: readonly { path: string; expected: string }[] }): string =>
    (result.faults ?? []).map(({ path, expected }) => `${path}: ${expected}`).join('; ')

  test.each([
    [
      'a nozzle larger than the board',
      { nozzle: { name: 'n', shape: 'square', sizeMm: 80 } },
      /nozzle.sizeMm: .*at most 70 mm/,
    ],
    ['a nozzle beside the board', { at: { x: 120, y: 10 } }, /\$\.at: a point over the board/],
    ['air colder than the room', { airC: 5 }, /\$\.airC/],
    ['a preheat of no number', { preheatC: Number.NaN }, /\$\.preheatC/],
    ['the side that the board wasn’t built for', { side: 'bottom' }, /\$\.side/],
  ] as const)('%s', (_, change, message) => {
    expect(faultOf(simulate(board, { ...settingAt(40, 35), ...change }))).toMatch(message)
  })
  test.each([0, -1, Number.NaN, 0.0001])('cells of %d mm', (cellMm) => {
    expect(faultOf(buildThermalBoard(model, { cellMm }))).toMatch(/\$\.cellMm/)
  })
  test('a shield on an unknown part', () => {
    expect(faultOf(buildThermalBoard(model, { shields: [{ ref: 'U9', kind: 'tape' }] }))).toMatch(/\$\.shields\[0\]/)
  })
})

test('what is only drawn or plated on the board is not named', () => {
  const other = (ref: string, x: number) => packageAt(ref, x, 20, { kind: 'other' })
  const marked = boardWith([
    packageAt('U1', 40, 35),
    other('TP3', 10),
    other('FID1', 25),
    other('LOGO', 60),
    other('R7', 70),
  ])
  const run = value(simulate(thermal(marked, { cellMm: 2 }), settingAt(40, 35)))
  expect(run.parts.map(({ ref }) => ref)).toEqual(['U1', 'R7'])
})

test('a part that lies off the board takes no part, and is said', () => {
  const off = boardWith([packageAt('U1', 40, 35), packageAt('U2', 500, 35)])
  const run = value(simulate(thermal(off, { cellMm: 2 }), settingAt(40, 35)))
  expect(run.parts.map(({ ref }) => ref)).toEqual(['U1'])
  expect(run.notes.join(' ')).toContain('lie off the board are left out: U2')
})

test('cautions name lead where an alloy holds it, and defer to local rules last', () => {
  const leaded = boardWith([packageAt('U1', 40, 35, { jointAlloy: 'Sn63Pb37' })])
  const sentences = heatCautions(settingAt(40, 35), leaded).map(({ sentence }) => sentence)
  expect(sentences.join(' ')).toMatch(/hold lead/)
  expect(sentences.at(-1)).toMatch(/Local rules/)
  expect(heatCautions(settingAt(40, 35), model).some(({ hazard }) => hazard === 'lead')).toBe(false)
  // on any board each says where it is from, were it from memory
  for (const { source } of heatCautions(settingAt(40, 35), leaded)) expect(source).toMatch(/\w{3}/)
})
