/**
 * The trade's own case: liquid metal pressed out at the core's edge when the cooler went on again, between two memory
 * packages that fail. Practice takes off the core and both, whatever was filled in (common practice, no source); for that
 * each of the three has to be in reach.
 */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { type BoardModel, readBoard } from '../../src/board/index.ts'
import {
  createReachEngine,
  type ReachEngine,
  type ReachResult,
  type SpillMark,
  spillMarkSchema,
  substances,
  usualOf,
} from '../../src/spill/index.ts'
import { spillAt, substanceOf, unwrap } from '../support/board-fixture.ts'

const folder = join(import.meta.dirname, '../fixtures/trade')

const tradeCase = z.object({
  board: z.object({ path: z.string() }),
  reports: z.array(z.object({ table: z.array(z.object({ lane: z.string() })) })).length(1),
  marks: z.array(spillMarkSchema).length(1),
})

interface Laid {
  readonly model: BoardModel
  readonly mark: SpillMark
  /** The core and the packages that fail. */
  readonly refs: readonly string[]
}

function laid(file: string): Laid {
  const { board, reports, marks } = tradeCase.parse(JSON.parse(readFileSync(join(folder, file), 'utf8')))
  const model = unwrap(readBoard(readFileSync(join(folder, board.path), 'utf8')))
  const [mark] = marks
  if (mark === undefined || model.core === undefined) throw new Error(`${file} lacks a mark or a core`)
  const lanes = reports.flatMap(({ table }) => table.map(({ lane }) => lane))
  const failing = new Set(lanes.map((lane) => model.laneById.get(lane)?.part ?? `no part with ${lane}`))
  return { model, mark, refs: [model.core.ref, ...failing] }
}

const engines = new Map<string, ReachEngine>()
function reachOf({ model, mark }: Laid, change: Partial<SpillMark> = {}): ReachResult {
  const engine = engines.get(model.name) ?? createReachEngine(model)
  engines.set(model.name, engine)
  return unwrap(engine.reach({ ...mark, ...change }, [], substanceOf(mark.substance)))
}

const chanceOf = (reach: ReachResult, ref: string): number =>
  reach.parts.find((part) => part.ref === ref)?.probability ?? 0

const files = readdirSync(folder).filter((file) => file.endsWith('.case.json'))

test('there are five cases: every edge of a core, pressing said and not said, flat and upright', () => {
  const marks = files.map((file) => laid(file).mark)
  expect(files).toHaveLength(5)
  expect(new Set(files.map((file) => file.split('-')[0]))).toEqual(new Set(['top', 'right', 'bottom', 'left']))
  expect(new Set(marks.map(({ pressed }) => pressed))).toEqual(new Set(['yes', 'unknown']))
  expect(new Set(marks.map(({ downDeg }) => downDeg === undefined))).toEqual(new Set([true, false]))
  for (const file of files) expect(laid(file).refs).toHaveLength(3)
})

describe.each(files)('%s', (file) => {
  test('reaches the core and both neighbours: half likely or more where pressing is said, a quarter where it is not', () => {
    const it = laid(file)
    const reach = reachOf(it)
    const least = it.mark.pressed === 'yes' ? 0.5 : 0.25
    for (const ref of it.refs) expect(chanceOf(reach, ref)).toBeGreaterThan(least)
  })

  test('reaches none of them when nothing was pressed on it', () => {
    const it = laid(file)
    const reach = reachOf(it, { pressed: 'no' })
    for (const ref of it.refs) expect(chanceOf(reach, ref)).toBe(0)
  })

  test('counts what is not said between the two answers', () => {
    const it = laid(file)
    const [yes, no, unknown] = (['yes', 'no', 'unknown'] as const).map((pressed) => reachOf(it, { pressed }))
    if (!yes || !no || !unknown) throw new Error('three answers')
    for (const ref of it.refs) {
      const between = (chanceOf(yes, ref) + chanceOf(no, ref)) / 2
      expect(Math.abs(chanceOf(unknown, ref) - between)).toBeLessThan(0.06)
    }
  })
})

describe('how it was pressed', () => {
  test('an older mark that states how far counts as pressed', () => {
    const it = laid('right-edge-not-said-flat.case.json')
    const old = reachOf(it, { pushMm: 3 })
    expect(old.parts).toEqual(reachOf(it, { pressed: 'yes', pushMm: 3 }).parts)
    expect(chanceOf(old, 'U1')).toBeGreaterThan(0.5)
  })

  test('a distance that is stated is taken, one that is not is spread about the usual', () => {
    const it = laid('right-edge-not-said-flat.case.json')
    const far = reachOf(it, { pressed: 'yes', pushMm: 12 })
    const near = reachOf(it, { pressed: 'yes', pushMm: 0.4 })
    const usual = reachOf(it, { pressed: 'yes' })
    for (const ref of it.refs) {
      expect(chanceOf(near, ref)).toBeLessThan(chanceOf(usual, ref))
      expect(chanceOf(usual, ref)).toBeLessThan(chanceOf(far, ref))
    }
  })
})

describe('the usual of a substance', () => {
  test('brings an amount with its source for every shipped one, and a pressing for every one that stays', () => {
    for (const { usual, moves } of substances) {
      expect(usual?.source).toMatch(/./)
      expect(usual?.pressed !== undefined).toBe(moves === 'pinned')
    }
  })

  test('forgets what was said of another substance', () => {
    expect(usualOf(substanceOf('gallium-indium'))).toMatchObject({
      amount: { smearCm2: 2 },
      pressed: 'unknown',
      pushMm: 0,
    })
    expect(usualOf(substanceOf('coolant-eg')).amount).toHaveProperty('volumeMl')
  })
})

describe('what is said of the extent', () => {
  const model = unwrap(readBoard(readFileSync(join(folder, '../../../boards/splice-6.json'), 'utf8')))
  const engine = createReachEngine(model)
  const extentOf = (more: Partial<SpillMark>): ReachResult => {
    const mark = { ...spillAt(116, 40), ...more }
    return unwrap(engine.reach(mark, [], substanceOf(mark.substance)))
  }

  test.each(substances.map(({ id }) => [id]))('says of %s what its figures say', (id) => {
    for (const amount of [{ volumeMl: 0.02 }, { smearCm2: 1 }]) {
      const { extent, radiusMm } = extentOf({ substance: id, amount, sdMm: 0 })
      expect(extent.startsWith('It spreads')).toBe(substanceOf(id).moves === 'wets')
      expect(extent).toContain(radiusMm.toFixed(1))
    }
  })

  test('tells a push that is known apart from one that is not', () => {
    const alloy = { substance: 'gallium-indium', amount: { smearCm2: 2 } }
    expect(extentOf({ ...alloy, pressed: 'yes', pushMm: 4 }).extent).toContain('about 4 mm further')
    expect(extentOf({ ...alloy, pressed: 'unknown' }).extent).toContain('not known')
    expect(extentOf({ ...alloy, pressed: 'no' }).extent).not.toContain('further')
  })
})
