/** From a lift list to a plan: what the heat solves say stands in it, groups are weighed, solves are kept and can be stopped. */
import { describe, expect, test } from 'vitest'
import { sayFault } from '../../src/base/index.ts'
import type { BoardModel } from '../../src/board/index.ts'
import {
  type ExposureShelf,
  planCase,
  type Rework,
  type ReworkQuestion,
  type ReworkWatch,
} from '../../src/case/index.ts'
import { defaultEquipment, exposureOf } from '../../src/heat/index.ts'
import { type PlanAnswer, planRework } from '../../src/plan/index.ts'
import { boardWith, packageAt, value } from '../support/heat-board.ts'

const equipment = { ...defaultEquipment, nozzles: defaultEquipment.nozzles.filter(({ sizeMm }) => sizeMm <= 32) }
/** Only what covers one of these packages by itself. */
const narrow = { ...equipment, nozzles: equipment.nozzles.filter(({ sizeMm }) => sizeMm <= 16) }

const outline = [
  { x: 0, y: 0 },
  { x: 60, y: 0 },
  { x: 60, y: 40 },
  { x: 0, y: 40 },
]
const small = (parts: Parameters<typeof boardWith>[0]): BoardModel => boardWith(parts, { outline })
const closePair = small([packageAt('U1', 20, 20), packageAt('U2', 35, 20)])

const asking = (lift: readonly string[], more: Partial<ReworkQuestion> = {}): ReworkQuestion => ({
  lift,
  successProbability: 0.8,
  equipment,
  shop: undefined,
  passes: [],
  floorLife: new Map(),
  substances: [],
  shields: [],
  ...more,
})

const totalOf = ({ best }: PlanAnswer): number => best.cost + best.exposureCost
const passesOf = ({ answer }: Rework): string[] =>
  answer.best.steps
    .filter(({ action }) => action === 'lift' || action === 'refit')
    .map(({ action, refs }) => `${action} ${refs.join(' ')}`)

/** The pair is solved once; each test that needs it plans from the shelf. */
const shelf: ExposureShelf = new Map()
const told: { share: number; what: string }[] = []
const first = planCase(
  closePair,
  asking(['U2', 'U1', 'U2']),
  { onProgress: (share, what) => told.push({ share, what }) },
  shelf,
)
const pair = value(first)

describe('a close pair', () => {
  const heatOf = (together: readonly string[], target: string) =>
    value(exposureOf(closePair, { target, together, equipment }))

  test('is planned from the exposures of its parts and of the pair under one nozzle', () => {
    const exposures = new Map(pair.exposures.map((exposure) => [exposure.target, exposure]))
    expect([...exposures.keys()].toSorted()).toEqual(['U1', 'U2'])
    const group = { refs: ['U1', 'U2'], exposure: heatOf(['U2'], 'U1') }
    const input = { model: closePair, lift: ['U1', 'U2'], exposures, successProbability: 0.8 }
    const without = value(planRework(input))
    const withGroup = value(planRework({ ...input, groups: [group] }))
    expect(totalOf(pair.answer)).toBeCloseTo(totalOf(withGroup), 9)
    expect(totalOf(pair.answer)).toBeLessThan(totalOf(without))
    // Either part melts the other when lifted alone, and a pass for both saves two passes of several minutes each.
    expect(passesOf(pair)).toEqual(['lift U1 U2', 'refit U1 U2'])
    const lifted = pair.answer.best.steps.find(({ action }) => action === 'lift')
    expect(lifted?.setting).toEqual(group.exposure.setting)
  })

  test('tells shares that never fall, end at 1, and name what is heated', () => {
    const shares = told.map(({ share }) => share)
    expect(shares).toEqual(shares.toSorted((a, b) => a - b))
    expect(shares[0]).toBe(0)
    expect(shares.at(-1)).toBe(1)
    expect([...new Set(told.map(({ what }) => what))]).toEqual(['U2', 'U1', 'U1 with U2'])
    // Three solves, so that the pair's starts when two thirds are done.
    expect(told.find(({ what }) => what === 'U1 with U2')?.share).toBeCloseTo(2 / 3, 9)
  })

  test('asks no second solve for a changed price or a logged pass', () => {
    const solves: string[] = []
    const watch: ReworkWatch = { onProgress: (_, what) => solves.push(what) }
    const dearer = planCase(closePair, asking(['U1', 'U2'], { shop: { money: { hourlyRate: 500 } } }), watch, shelf)
    expect(value(dearer).answer.best.cost).toBeGreaterThan(pair.answer.best.cost)
    const pass = {
      action: 'lift',
      refs: ['U1', 'U2'],
      outcome: 'done',
      measured: [],
      found: [],
      replaced: false,
    } as const
    const later = planCase(
      closePair,
      asking(['U1', 'U2'], { passes: [{ ...pass, refs: [...pass.refs], measured: [], found: [] }] }),
      watch,
      shelf,
    )
    expect(passesOf(value(later))).toEqual(['refit U1 U2'])
    expect(solves).toEqual([])
  })

  test('shields and equipment are part of what was solved: a change of them is solved anew', () => {
    const solves: string[] = []
    const stop = { aborted: false }
    const watch: ReworkWatch = {
      signal: stop,
      onProgress: (_, what) => {
        solves.push(what)
        stop.aborted = true
      },
    }
    planCase(closePair, asking(['U1'], { shields: [{ target: 'U1', ref: 'U2', kind: 'tape' }] }), watch, shelf)
    expect(solves[0]).toBe('U1')
  })

  test('without a nozzle for both is lifted one by one', () => {
    const rework = value(planCase(closePair, asking(['U1', 'U2'], { equipment: narrow })))
    expect(passesOf(rework)).toHaveLength(4)
    expect(rework.answer.notes.filter((note) => note.includes('One nozzle would cover'))).toEqual([])
  })
})

describe('a stop', () => {
  test('before the first solve', () => {
    const kept: ExposureShelf = new Map()
    const stopped = planCase(closePair, asking(['U1']), { signal: { aborted: true } }, kept)
    expect(stopped.ok ? [] : stopped.faults.map(({ found }) => found)).toEqual(['a stop'])
    expect(kept.size).toBe(0)
  })
  test('in the middle keeps what was solved and nothing half done', () => {
    const kept: ExposureShelf = new Map()
    const signal = { aborted: false }
    const onProgress = (_: number, what: string): void => {
      signal.aborted = what === 'U2'
    }
    const stopped = planCase(closePair, asking(['U1', 'U2']), { signal, onProgress }, kept)
    expect(stopped.ok ? [] : stopped.faults.map(({ found }) => found)).toEqual(['a stop'])
    expect(kept.size).toBe(1)
  })
})

describe('what can’t be lifted', () => {
  const tender = { maxBodyC: 200 }
  test('is named with what is missing, and the rest is planned', () => {
    const model = small([packageAt('U1', 14, 20), packageAt('U2', 46, 20, tender)])
    const kept: ExposureShelf = new Map()
    const rework = value(planCase(model, asking(['U1', 'U2'], { equipment: narrow }), {}, kept))
    expect(rework.cannot.map(({ ref }) => ref)).toEqual(['U2'])
    expect(rework.cannot[0]?.missing.join(' ')).toMatch(/body/)
    expect(passesOf(rework)).toEqual(['lift U1', 'refit U1'])
    const solves: string[] = []
    const again = planCase(
      model,
      asking(['U2'], { equipment: narrow }),
      { onProgress: (_, what) => solves.push(what) },
      kept,
    )
    expect(again.ok ? [] : again.faults.map(({ path }) => path)).toEqual(['heat of U2'])
    expect(solves).toEqual([])
  })
  test('by one nozzle though each can alone: a note says so, and the plan takes them one by one', () => {
    const mixed = small([
      packageAt('U1', 20, 20, { jointAlloy: 'Sn63Pb37' }),
      packageAt('U2', 35, 20, { jointAlloy: 'SAC305' }),
    ])
    const rework = value(planCase(mixed, asking(['U1', 'U2'])))
    expect(rework.cannot).toEqual([])
    expect(passesOf(rework)).toHaveLength(4)
    expect(rework.answer.notes.join(' ')).toMatch(
      /cover U1 with U2, but no setting of this equipment lifts them together/,
    )
  })
  test('a part that is not on the board is a fault that names it', () => {
    const answer = planCase(closePair, asking(['U99']))
    expect(answer.ok ? '' : answer.faults.map(sayFault).join(' ')).toContain('U99')
  })
})

test('of many groups a few are solved, and a note says how many', () => {
  const body = { body: { widthMm: 6, lengthMm: 6, heightMm: 1 }, pads: [] }
  const model = small(
    [
      [24, 15],
      [33, 15],
      [24, 24],
      [33, 24],
    ].map(([x = 0, y = 0], i) => packageAt(`U${i + 1}`, x, y, body)),
  )
  const bench = { ...equipment, nozzles: equipment.nozzles.filter(({ sizeMm }) => sizeMm === 8 || sizeMm === 20) }
  const solves = new Set<string>()
  const rework = value(
    planCase(model, asking(['U1', 'U2', 'U3', 'U4'], { equipment: bench }), {
      onProgress: (_, what) => solves.add(what),
    }),
  )
  const groups = [...solves].filter((what) => what.includes(' with '))
  // The first two can stand in one plan: they share no part.
  expect(new Set(groups.slice(0, 2).flatMap((what) => what.split(' with '))).size).toBe(4)
  // Four parts in a square of 15 mm with 2 mm to spare on each side: 6 pairs, 4 triples and all four fit under 20 mm.
  expect(groups).toHaveLength(4)
  expect(rework.answer.notes.join(' ')).toContain('Heat was solved for 4 of the 11 groups')
})

describe('the chance of success', () => {
  const pass = (
    action: 'lift' | 'refit',
    ref: string,
    outcome: 'done' | 'skipped',
  ): ReworkQuestion['passes'][number] => ({
    action,
    refs: [ref],
    outcome,
    measured: [],
    found: [],
    replaced: false,
  })
  const shop = { exposure: { meltRisk: 0, chipMeltRisk: 0, nearRisk: 0, overLimitRisk: 0 } }
  /** With passes that spoil nothing. */
  const chance = (passes: ReworkQuestion['passes'], needs: ReadonlyMap<string, number>): number =>
    value(planCase(closePair, asking(['U1', 'U2'], { passes, needs, shop }), {}, shelf)).answer.worth.successProbability

  test('falls by the need of a part whose lift was skipped', () => {
    expect(chance([pass('lift', 'U1', 'skipped')], new Map([['U1', 0.3]]))).toBeCloseTo(0.5, 12)
  })

  test('is gone with a part that was lifted and stays off', () => {
    expect(chance([pass('lift', 'U1', 'done'), pass('refit', 'U1', 'skipped')], new Map())).toBe(0)
  })
})
