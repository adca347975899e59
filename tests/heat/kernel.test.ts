/**
 * The kernels against closed forms of Carslaw & Jaeger, Conduction of Heat in Solids (formulas from memory; check values
 * computed with mpmath, the Bessel and erfc values as in Abramowitz & Stegun tables 7.1 and 9.8).
 */
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type HeatNetwork, prepareAdi, solveSteady, zeroState } from '../../src/heat/index.ts'
import { besselI, besselK, erfc } from '../support/bessel.ts'
import { explicitStep, noGain, plate } from '../support/plate.ts'

const start = (network: HeatNetwork) => zeroState(network.capacity.length, network.nodeCell.length)

describe('the functions of the closed forms', () => {
  // Abramowitz & Stegun, tables 7.1 and 9.8.
  test.each([
    [0.1, 2.427069025, 9.853844781, 1.002501563, 0.05006252605],
    [0.5, 0.9244190712, 1.65644112, 1.063483371, 0.2578943054],
    [1, 0.4210244382, 0.6019072302, 1.266065878, 0.565159104],
    [2, 0.1138938727, 0.1398658818, 2.279585302, 1.590636855],
  ])('K and I at %d', (x, k0, k1, i0, i1) => {
    expect(besselK(0, x) / k0).toBeCloseTo(1, 8)
    expect(besselK(1, x) / k1).toBeCloseTo(1, 8)
    expect(besselI(0, x) / i0).toBeCloseTo(1, 8)
    expect(besselI(1, x) / i1).toBeCloseTo(1, 8)
  })
  test.each([
    [0.1, 0.887537084],
    [0.25, 0.7236736098],
    [0.5, 0.4795001222],
    [1, 0.1572992071],
    [2, 0.004677734981],
  ])('erfc at %d', (x, value) => {
    expect(erfc(x)).toBeCloseTo(value, 9)
  })
})

/** Rises over a disc source of radius 7 mm, 5 W, on a plate of k 30, 1.6 mm, H 20: at the middle and at 10, 20, 40 mm. */
function discRises(cellMm: number): { middle: number; at: (mm: number) => number } {
  const reachMm = 240
  const n = Math.round(reachMm / cellMm)
  const network = plate({
    columns: n,
    rows: n,
    cellM: cellMm / 1000,
    conductance: 30 * 1.6e-3,
    capacityPerM2: 3520,
    filmPerM2: 20,
  })
  const gain = noGain(network)
  let covered = 0
  const sub = 16
  // A quarter of the plate: its two inner edges are insulated, as symmetry has it.
  for (let i = 0; i < gain.cells.length; i++) {
    let inside = 0
    for (let k = 0; k < sub * sub; k++) {
      const x = ((i % n) + ((k % sub) + 0.5) / sub) * cellMm
      const y = (Math.floor(i / n) + (Math.floor(k / sub) + 0.5) / sub) * cellMm
      if (Math.hypot(x, y) <= 7) inside++
    }
    gain.cells[i] = inside
    covered += inside
  }
  for (let i = 0; i < gain.cells.length; i++) gain.cells[i] = ((gain.cells[i] ?? 0) * 1.25) / covered
  const riseK = solveSteady(network, gain)?.riseK ?? new Float64Array()
  const value = (column: number, row: number): number => riseK[row * n + column] ?? 0
  return {
    // The field is even in x and y: T(h/2, h/2) = T(0) + c·h²/2, T(3h/2, 3h/2) = T(0) + 9·c·h²/2.
    middle: (9 * value(0, 0) - value(1, 1)) / 8,
    at: (mm) => {
      const column = mm / cellMm
      return (9 * (value(column - 1, 0) + value(column, 0)) - (value(column - 1, 1) + value(column, 1))) / 16
    },
  }
}

describe('a disc source on a cooled plate', () => {
  // θ(r ≤ a) = q/H·(1 - m·a·K1(ma)·I0(mr)), θ(r ≥ a) = q/H·m·a·I1(ma)·K0(mr); m = sqrt(H/(k·t)).
  const m = Math.sqrt(20 / (30 * 1.6e-3))
  const a = 0.007
  const q = 5 / (Math.PI * a * a)
  const inside = (r: number): number => (q / 20) * (1 - m * a * besselK(1, m * a) * besselI(0, m * r))
  const outside = (r: number): number => (q / 20) * m * a * besselI(1, m * a) * besselK(0, m * r)

  test('the formula gives the computed figures of the literature form', () => {
    expect(inside(0)).toBeCloseTo(42.6086, 3)
    expect(inside(a)).toBeCloseTo(34.5265, 3)
    expect(outside(a)).toBeCloseTo(34.5265, 3)
    expect(outside(0.02)).toBeCloseTo(18.2288, 3)
  })

  test('the plate agrees within 0.3 % at 1 mm cells, and halving the cells divides the error by three or more', () => {
    const [two, one] = [discRises(2), discRises(1)]
    for (const mm of [10, 20, 40]) expect(Math.abs(one.at(mm) / outside(mm / 1000) - 1)).toBeLessThan(0.003)
    expect(Math.abs(one.middle / inside(0) - 1)).toBeLessThan(0.003)
    const error = (field: { at: (mm: number) => number }): number =>
      Math.hypot(...[20, 40].map((mm) => field.at(mm) - outside(mm / 1000)))
    expect(error(two) / error(one)).toBeGreaterThan(3)
  })
})

describe('a cosine mode on an insulated plate', () => {
  // T = cos(πx/L)·cos(πy/W)·exp(-(α·π²·(1/L² + 1/W²) + H/(ρc·d))·t), exact.
  const lengthM = 0.064
  const widthM = 0.032
  const conductance = 0.1
  const capacityPerM2 = 3900
  const filmPerM2 = 40
  const rate = (conductance / capacityPerM2) * Math.PI ** 2 * (lengthM ** -2 + widthM ** -2) + filmPerM2 / capacityPerM2

  function modeError(cellM: number, stepS: number): number {
    const columns = Math.round(lengthM / cellM)
    const rows = Math.round(widthM / cellM)
    const network = plate({ columns, rows, cellM, conductance, capacityPerM2, filmPerM2 })
    const state = start(network)
    const shape = (i: number): number =>
      Math.cos((Math.PI * ((i % columns) + 0.5)) / columns) *
      Math.cos((Math.PI * (Math.floor(i / columns) + 0.5)) / rows)
    for (let i = 0; i < state.cells.length; i++) state.cells[i] = 100 * shape(i)
    const step = prepareAdi(network, stepS, 0.5)
    const gain = noGain(network)
    const durationS = 16
    for (let k = 0; k < Math.round(durationS / stepS); k++) step.advance(state, gain)
    const exact = 100 * Math.exp(-rate * durationS)
    let worst = 0
    for (let i = 0; i < state.cells.length; i++)
      worst = Math.max(worst, Math.abs((state.cells[i] ?? 0) - exact * shape(i)))
    return worst
  }

  test('decays at the exact rate; the order in space is at least 1.9', () => {
    const errors = [4, 2, 1].map((mm) => modeError(mm / 1000, 0.01))
    const orders = [Math.log2((errors[0] ?? 0) / (errors[1] ?? 1)), Math.log2((errors[1] ?? 0) / (errors[2] ?? 1))]
    for (const order of orders) expect(order).toBeGreaterThan(1.9)
    expect(errors[2]).toBeLessThan(0.01)
  })

  test('and the order in time is at least 1.9', () => {
    const fine = modeError(1e-3, 0.005)
    const errors = [4, 2, 1].map((stepS) => Math.abs(modeError(1e-3, stepS) - fine))
    expect(Math.log2((errors[0] ?? 0) / (errors[1] ?? 1))).toBeGreaterThan(1.9)
    expect(Math.log2((errors[1] ?? 0) / (errors[2] ?? 1))).toBeGreaterThan(1.9)
  })
})

describe('a strip', () => {
  // Semi-infinite solid, k 0.3, ρ 1850, cp 1100, one end heated; computed with mpmath.
  const k = 0.3
  const rhoC = 1850 * 1100
  const cellM = 1e-4

  function strip(along: 'x' | 'y', firstLoss: number, firstGain: number, n = 160): number[] {
    const network = plate({
      columns: along === 'x' ? n : 1,
      rows: along === 'x' ? 1 : n,
      cellM,
      conductance: k,
      capacityPerM2: rhoC,
      filmPerM2: 0,
    })
    // Unit thickness: the film acts on the end face, half a cell away from the first middle.
    network.loss[0] = firstLoss
    const gain = noGain(network)
    gain.cells[0] = firstGain
    const state = start(network)
    const step = prepareAdi(network, 0.05, 0.5)
    for (let s = 0; s < 200; s++) step.advance(state, gain)
    return [...state.cells]
  }

  test.each(['x', 'y'] as const)(
    'whose end is held at 1 follows erfc along %s: 0.351436 at 1.6 mm after 10 s',
    (along) => {
      const half = 2 * k
      const rises = strip(along, half, half)
      const at = ((rises[15] ?? 0) + (rises[16] ?? 0)) / 2
      expect(at).toBeCloseTo(erfc(1.6e-3 / (2 * Math.sqrt((k / rhoC) * 10))), 3)
      expect(at).toBeCloseTo(0.351436, 3)
    },
  )

  test('under a steady flux of 1e4 W/m² warms by 45.668 K at its end after 10 s', () => {
    const rises = strip('x', 0, 1e4 * cellM)
    const end = (rises[0] ?? 0) + (1e4 * cellM) / 2 / k
    expect(Math.abs(end / 45.668 - 1)).toBeLessThan(0.002)
  })

  test('that is a slab of 1.6 mm, heated on one side and insulated on the other, follows the series at every depth', () => {
    // Carslaw and Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, section 3.8, from memory: flux F at x = l, none at x = 0,
    // T = F·t/(ρc·l) + F·l/k·((3x² − l²)/(6l²) − 2/π²·Σ (−1)ⁿ/n²·exp(−α·n²·π²·t/l²)·cos(nπx/l)).
    const cells = 16
    const [lengthM, fluxWPerM2, timeS] = [cells * cellM, 1e4, 10]
    const closedForm = (x: number): number => {
      let sum = 0
      for (let n = 1; n <= 200; n++) {
        const decay = Math.exp((-(k / rhoC) * n * n * Math.PI * Math.PI * timeS) / (lengthM * lengthM))
        sum += ((n % 2 === 0 ? 1 : -1) / (n * n)) * decay * Math.cos((n * Math.PI * x) / lengthM)
      }
      const settled = (3 * x * x - lengthM * lengthM) / (6 * lengthM * lengthM)
      return (
        (fluxWPerM2 * timeS) / (rhoC * lengthM) + ((fluxWPerM2 * lengthM) / k) * (settled - (2 / Math.PI ** 2) * sum)
      )
    }
    const rises = strip('x', 0, fluxWPerM2 * cellM, cells)
    for (const [i, rise] of rises.entries()) {
      const exact = closedForm(lengthM - (i + 0.5) * cellM)
      expect(Math.abs(rise - exact) / exact).toBeLessThan(0.005)
    }
  })

  test('under air with h 100 W/m²K reaches 0.331997 of the air at its end after 10 s', () => {
    const film = 1 / (1 / (100 * cellM) + 1 / (2 * k))
    const rises = strip('x', film, film)
    const flux = film * (1 - (rises[0] ?? 0))
    const end = 1 - flux / (100 * cellM)
    expect(end).toBeCloseTo(0.331997, 3)
  })
})

test('a plate without gradients cools with its lumped time constant, 176 s for 2.2e6·1.6e-3/20', () => {
  const network = plate({
    columns: 5,
    rows: 4,
    cellM: 1e-3,
    conductance: 0.05,
    capacityPerM2: 2.2e6 * 1.6e-3,
    filmPerM2: 20,
  })
  const state = start(network)
  state.cells.fill(100)
  const step = prepareAdi(network, 1, 0.5)
  for (let s = 0; s < 176; s++) step.advance(state, noGain(network))
  for (const rise of state.cells) expect(rise).toBeCloseTo(100 / Math.E, 2)
})

const randomNetwork = fc
  .record({
    columns: fc.integer({ min: 2, max: 9 }),
    rows: fc.integer({ min: 2, max: 9 }),
    conductance: fc.double({ min: 0.01, max: 0.2, noNaN: true }),
    film: fc.double({ min: 5, max: 300, noNaN: true }),
    holes: fc.array(fc.nat(80), { maxLength: 6 }),
    bodies: fc.array(fc.nat(80), { maxLength: 8 }),
  })
  .map(({ columns, rows, conductance, film, holes, bodies }): HeatNetwork => {
    const bare = plate({ columns, rows, cellM: 1e-3, conductance, capacityPerM2: 3900, filmPerM2: film })
    const cells = columns * rows
    for (const each of holes) {
      const hole = each % cells
      bare.capacity[hole] = 0
      bare.loss[hole] = 0
      bare.right[hole] = 0
      bare.up[hole] = 0
      if (hole > 0) bare.right[hole - 1] = 0
      if (hole >= columns) bare.up[hole - columns] = 0
    }
    const standing = bodies.map((each) => each % cells).filter((cell) => (bare.capacity[cell] ?? 0) > 0)
    return {
      ...bare,
      nodeCell: Int32Array.from(standing),
      nodeCapacity: new Float64Array(standing.length).fill(2e-3),
      nodeLink: new Float64Array(standing.length).fill(1.5e-3),
      nodeLoss: new Float64Array(standing.length).fill(2e-4),
    }
  })

describe('on any board with holes and bodies', () => {
  const lit = (network: HeatNetwork) => ({
    cells: network.loss.map((w, i) => (i % 3 === 0 ? 200 * w : 50 * w)),
    nodes: network.nodeLoss.map((w) => 150 * w),
  })

  test('the implicit step agrees with a slow explicit march', () => {
    fc.assert(
      fc.property(randomNetwork, (network) => {
        const gain = lit(network)
        const fast = start(network)
        const slow = start(network)
        const step = prepareAdi(network, 0.05, 0.5)
        for (let k = 0; k < 100; k++) step.advance(fast, gain)
        for (let k = 0; k < 5000; k++) explicitStep(network, slow, gain, 0.001)
        for (let i = 0; i < fast.cells.length; i++) expect(fast.cells[i]).toBeCloseTo(slow.cells[i] ?? 0, 1)
        for (let n = 0; n < fast.nodes.length; n++) expect(fast.nodes[n]).toBeCloseTo(slow.nodes[n] ?? 0, 1)
      }),
      { seed: 11, numRuns: 25 },
    )
  })

  test('temperatures stay between the coldest and the hottest air (0.5 K of overshoot allowed at 1 s steps)', () => {
    fc.assert(
      fc.property(randomNetwork, (network) => {
        const gain = lit(network)
        const state = start(network)
        const damped = prepareAdi(network, 0.5, 1)
        const step = prepareAdi(network, 1, 0.5)
        damped.advance(state, gain)
        damped.advance(state, gain)
        for (let k = 0; k < 60; k++) {
          step.advance(state, gain)
          const values = [...state.cells, ...state.nodes]
          expect(Math.min(...values)).toBeGreaterThan(-0.5)
          expect(Math.max(...values)).toBeLessThan(200.5)
        }
      }),
      { seed: 12, numRuns: 60 },
    )
  })

  test('a long march settles where the steady solver says', () => {
    fc.assert(
      fc.property(randomNetwork, (network) => {
        const gain = lit(network)
        const state = start(network)
        const step = prepareAdi(network, 5, 0.5)
        for (let k = 0; k < 6000; k++) step.advance(state, gain)
        const riseK = solveSteady(network, gain)?.riseK ?? new Float64Array()
        for (let i = 0; i < riseK.length; i++) expect(state.cells[i]).toBeCloseTo(riseK[i] ?? 0, 2)
      }),
      { seed: 13, numRuns: 15 },
    )
  })

  test('mirrored left to right or upside down, the same comes out mirrored', () => {
    const network = plate({ columns: 8, rows: 6, cellM: 1e-3, conductance: 0.08, capacityPerM2: 3900, filmPerM2: 40 })
    const gain = noGain(network)
    gain.cells[2 * 8 + 1] = 0.02
    const other = noGain(network)
    other.cells[3 * 8 + 6] = 0.02
    const [a, b] = [start(network), start(network)]
    const step = prepareAdi(network, 0.02, 0.5)
    for (let k = 0; k < 200; k++) {
      step.advance(a, gain)
      step.advance(b, other)
    }
    for (let i = 0; i < 48; i++) {
      const turned = (5 - Math.floor(i / 8)) * 8 + (7 - (i % 8))
      expect(a.cells[i]).toBeCloseTo(b.cells[turned] ?? 0, 9)
    }
  })
})
