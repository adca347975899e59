/** A whole board from a pattern: sound whatever is chosen, as common cards are, refused by the field where it can't be. */
import { fc, test as property } from '@fast-check/vitest'
import { describe, expect, test } from 'vitest'
import { type Box, boxOf, distance, polygonContains } from '../../src/base/index.ts'
import {
  boardFromPattern,
  boardLikeness,
  type BoardModel,
  type BoardPattern,
  boardRemarks,
  loadBoard,
  isStack,
  patternPackages,
  patternUntold,
  usualPattern,
  usualSupplies,
} from '../../src/board/index.ts'

const SEED = { seed: 20251125, numRuns: 60 }
const BUSES = Array.from({ length: 29 }, (_, i) => 64 + 16 * i)

/**
 * Data bits of a package. JEDEC JESD212 (GDDR5 SGRAM), JESD232A (GDDR5X, 2016) and JESD250D (GDDR6, 2023): x32, or two
 * channels of x16; JESD239 (GDDR7, 2024): four channels of 8; JESD209-4 (LPDDR4) and JESD209-5 (LPDDR5): two channels of
 * x16; JESD79-3 (DDR3), JESD79-4 (DDR4) and JESD79-5 (DDR5): x16. From memory.
 */
const PACKAGE_BITS: ReadonlyMap<string, number> = new Map([
  ['170-ball', 32],
  ['180-ball', 32],
  ['190-ball', 32],
  ['266-ball', 32],
  ['200-ball', 32],
  ['315-ball', 32],
  ['96-ball-ddr3', 16],
  ['96-ball-ddr4', 16],
  ['102-ball', 16],
])

const made = (pattern: BoardPattern): BoardModel => {
  const board = boardFromPattern(pattern)
  if (!board.ok) throw new Error(JSON.stringify(board.faults, null, 1))
  return board.value
}

const refused = (pattern: BoardPattern): string[] => {
  const board = boardFromPattern(pattern)
  return board.ok ? [] : board.faults.map(({ path, expected }) => `${path}: ${expected}`)
}

const meet = (a: Box, b: Box): boolean =>
  a.minX < b.maxX - 1e-6 && b.minX < a.maxX - 1e-6 && a.minY < b.maxY - 1e-6 && b.minY < a.maxY - 1e-6

/** What is wrong with how the parts stand, in words. */
function misplaced(board: BoardModel): string[] {
  const { parts, outline, drills } = board
  const meeting = parts.flatMap((a, i) =>
    parts
      .slice(i + 1)
      .filter((b) => a.side === b.side && meet(a.box, b.box))
      .map((b) => `${a.ref} meets ${b.ref}`),
  )
  const off = parts
    .filter((part) => part.outline.some((corner) => !polygonContains(outline, corner)))
    .map(({ ref }) => `${ref} is not on the board`)
  const drilled = parts.flatMap(({ ref, box }) =>
    drills
      .filter(({ at, diameterMm }) => {
        const nearest = {
          x: Math.min(box.maxX, Math.max(box.minX, at.x)),
          y: Math.min(box.maxY, Math.max(box.minY, at.y)),
        }
        return distance(nearest, at) < diameterMm / 2
      })
      .map(() => `${ref} stands on a hole`),
  )
  return [...meeting, ...off, ...drilled]
}

function expectSound(board: BoardModel, pattern: BoardPattern): void {
  expect(misplaced(board)).toEqual([])
  expect(board.lanes.reduce((sum, lane) => sum + lane.bitCount, 0)).toBe(pattern.busBits)
  for (const lane of board.lanes) {
    expect(board.regionById.has(lane.memoryRegion)).toBe(true)
    expect(board.regionById.has(lane.coreRegion ?? '')).toBe(true)
    expect(board.corridorByLane.has(lane.id)).toBe(true)
  }
}

const NO_MAP = 'The board has no address map: a report must name lanes, channels or parts itself.'

/** Those that stand on the board; stacks on the core have a test of their own (`stacks.test.ts`). */
const onBoard = patternPackages.filter((name) => !isStack(name))

const combinations = onBoard.flatMap((name) =>
  BUSES.filter((bits) => bits % (PACKAGE_BITS.get(name) ?? 0) === 0).flatMap((busBits) =>
    (['one', 'both'] as const).map(
      (sides): BoardPattern => ({
        name: 'made',
        busBits,
        package: name,
        sides,
        supplies: usualSupplies(name, busBits),
      }),
    ),
  ),
)

describe('every bus, package and side gives a board without a fault', () => {
  test.each(onBoard)('%s', (name) => {
    const own = combinations.filter((pattern) => pattern.package === name)
    expect(own.length).toBeGreaterThanOrEqual(30)
    for (const pattern of own) {
      const board = made(pattern)
      expectSound(board, pattern)
      expect(board.description.addressMap).toBeUndefined()
      expect(boardRemarks(board)).toEqual([NO_MAP])
    }
  })
})

const supply = fc.record({
  nominalV: fc.double({ min: 0.6, max: 5, noNaN: true }),
  stages: fc.integer({ min: 0, max: 12 }),
  feeds: fc.constantFrom('core' as const, 'memory' as const, 'both' as const),
})

const sized = fc.record({
  base: fc.constantFrom(...combinations),
  coreMm: fc.option(fc.double({ min: 12, max: 70, noNaN: true }), { nil: undefined }),
  boardMm: fc.option(
    fc.record({ widthMm: fc.integer({ min: 100, max: 450 }), heightMm: fc.integer({ min: 50, max: 300 }) }),
    { nil: undefined },
  ),
  supplies: fc.array(supply, { maxLength: 5 }),
})

property.prop([sized], SEED)('own sizes and supplies give a sound board, or say what is too small', (own) => {
  const { base, coreMm, boardMm } = own
  const supplies = own.supplies.map((each, i) => ({ name: `R${i}`, ...each }))
  const pattern: BoardPattern = {
    ...base,
    supplies,
    ...(coreMm === undefined ? {} : { coreMm }),
    ...(boardMm === undefined ? {} : { boardMm }),
  }
  const faults = refused(pattern)
  if (faults.length > 0) {
    expect(faults).toHaveLength(1)
    expect(faults[0]).toMatch(/^\$\.boardMm\.(widthMm|heightMm): at least \d+ mm/)
    return
  }
  expectSound(made(pattern), pattern)
  // who takes all supplies of a part away is told so
  const remarks = boardRemarks(made(pattern)).filter((words) => !words.startsWith('No rail is known to feed'))
  expect(remarks).toEqual([NO_MAP])
  expect(made(pattern).rails.flatMap(({ stages }) => stages)).toHaveLength(
    supplies.reduce((sum, { stages }) => sum + stages, 0),
  )
})

property.prop([fc.constantFrom(...combinations)], { seed: 20251125, numRuns: 12 })(
  'the same pattern gives the same board, and its description loads again as a file does',
  (pattern) => {
    const { description } = made(pattern)
    expect(made(pattern).description).toEqual(description)
    const again = loadBoard(JSON.parse(JSON.stringify(description)))
    expect(again.ok && again.value.description).toEqual(description)
  },
)

// Bus width = packages x bits of a package; graphics packages back to back double the packages, not the bits (JEDEC
// JESD212, GDDR5, x16 mode, and JESD250D, GDDR6, 2023, x8 mode; from memory). Two ranks of the others are no part of it.
test.each([
  ['180-ball', 256, 'one', 8, 0],
  ['180-ball', 384, 'one', 12, 0],
  ['180-ball', 256, 'both', 8, 8],
  ['170-ball', 512, 'both', 16, 16],
  ['266-ball', 256, 'one', 8, 0],
  ['266-ball', 256, 'both', 8, 8],
  ['315-ball', 128, 'one', 4, 0],
  ['102-ball', 64, 'one', 4, 0],
  ['96-ball-ddr4', 64, 'one', 4, 0],
  ['96-ball-ddr4', 64, 'both', 2, 2],
] as const)('%s, %i bit, %s: %i packages on the top, %i on the bottom', (name, busBits, sides, top, bottom) => {
  const board = made({ ...usualPattern(), package: name, busBits, sides })
  expect(board.memories.filter(({ side }) => side === 'top')).toHaveLength(top)
  expect(board.memories.filter(({ side }) => side === 'bottom')).toHaveLength(bottom)
})

// JEDEC JESD250D, GDDR6, 2023, x8 mode, from memory: of two packages back to back each byte in use lies behind an unused one.
test.each(['170-ball', '180-ball', '190-ball', '266-ball'] as const)(
  '%s back to back: no lane in use lies behind another',
  (name) => {
    const board = made({ ...usualPattern(), package: name, sides: 'both' })
    const used = board.lanes.flatMap((lane) => board.regionById.get(lane.memoryRegion) ?? [])
    expect(used).toHaveLength(board.lanes.length)
    const over = used.flatMap((a) =>
      used.filter((b) => a.side === 'top' && b.side === 'bottom' && meet(boxOf(a.polygon), boxOf(b.polygon))),
    )
    expect(over).toEqual([])
  },
)

describe('a card that is too low for a ring', () => {
  const pattern = { ...usualPattern(), boardMm: { widthMm: 300 } }
  const below = (board: BoardModel): number =>
    board.memories.filter(({ box }) => board.core !== undefined && box.maxY < board.core.box.minY).length
  /** Bodies of the packages, JEDEC JESD250D (GDDR6, 2023), 12 x 14 mm, from memory; the core is the outline `core-40`. */
  const PACKAGE_MM = 14
  const CORE_MM = 40
  /** The tab of the slot's contacts, room for lanes beside the core, and to both edges: common practice, no source. */
  const TAB_MM = 8
  const LANES_MM = 10
  const EDGE_MM = 5
  const ringMm = TAB_MM + EDGE_MM + PACKAGE_MM + LANES_MM + CORE_MM + LANES_MM + PACKAGE_MM + EDGE_MM

  test('has the side of the slot free', () => {
    expect(below(made({ ...pattern, boardMm: { widthMm: 300, heightMm: ringMm } }))).toBe(2)
    expect(below(made({ ...pattern, boardMm: { widthMm: 300, heightMm: ringMm - 1 } }))).toBe(0)
  })

  test('is refused when it is too low for three sides as well, and made at the height that is named', () => {
    const [fault] = refused({ ...pattern, boardMm: { widthMm: 300, heightMm: 70 } })
    const least = Number(/heightMm: at least (\d+) mm/.exec(fault ?? '')?.[1])
    expect(least).toBeGreaterThan(70)
    expect(refused({ ...pattern, boardMm: { widthMm: 300, heightMm: least } })).toEqual([])
    expect(refused({ ...pattern, boardMm: { widthMm: 300, heightMm: least - 1 } })).not.toEqual([])
  })
})

test('a core of the size that an outline has takes it; any other is a plain body of that size', () => {
  expect(made({ ...usualPattern(), coreMm: 45 }).core?.description.package).toBe('core-45')
  const odd = made({ ...usualPattern(), coreMm: 33 }).core
  expect([odd?.description.package, odd?.widthMm, odd?.lengthMm]).toEqual([undefined, 33, 33])
})

test('each supply has its stages, each stage its inductor; ranges are marked as of common practice', () => {
  const board = made(usualPattern())
  expect(board.rails.map(({ name, stages }) => [name, stages.length])).toEqual([
    ['12V', 0],
    ['3V3', 0],
    ['VCORE', 9],
    ['VMEM', 2],
    ['VPP', 1],
    ['0V9', 1],
  ])
  expect(board.parts.filter(({ kind }) => kind === 'inductor')).toHaveLength(13)
  expect(new Set(board.rails.map(({ ohmsToGround }) => ohmsToGround?.from))).toEqual(
    new Set(['common practice, no source']),
  )
  expect(board.rails.every(({ points }) => points.length > 0)).toBe(true)
  expect(board.parts.some(({ description }) => description.price !== undefined)).toBe(false)
})

test('so many stages that the card would be wider than any board may be are refused at the supplies', () => {
  const stages = (count: number) =>
    Array.from({ length: 12 }, (_, i) => ({ name: `R${i}`, nominalV: 1, stages: count, feeds: 'core' as const }))
  const pattern = { ...usualPattern(), supplies: stages(12) }
  const [fault, ...others] = refused(pattern)
  expect(others).toEqual([])
  const most = Number(/^\$\.supplies: at most (\d+) stages/.exec(fault ?? '')?.[1])
  expect(most).toBeLessThan(144)
  // the number that is named is right: so many stages fit, and one more does not
  const withStages = (count: number): BoardPattern => ({
    ...pattern,
    supplies: stages(0).map((each, i) => ({ ...each, stages: Math.floor((count + 11 - i) / 12) })),
  })
  expect(refused(withStages(most))).toEqual([])
  expect(refused(withStages(most + 1))).toEqual([fault])
  const { box } = made(withStages(most))
  expect(box.maxX - box.minX).toBeLessThanOrEqual(450)
  // no width may be asked for that the field of the width would refuse
  expect(refused({ ...pattern, boardMm: { widthMm: 200 } })).toEqual([fault])
})

test.each([['widthMm', 330] as const, ['heightMm', 140] as const])(
  'of a size of one’s own, %s, the other side still follows the rest',
  (side, mm) => {
    const grown = [{ name: 'VCORE', nominalV: 0.9, stages: 24, feeds: 'core' as const }]
    const sizeOf = ({ box }: BoardModel) => ({ widthMm: box.maxX - box.minX, heightMm: box.maxY - box.minY })
    const other = side === 'widthMm' ? 'heightMm' : 'widthMm'
    const own: BoardPattern = { ...usualPattern(), supplies: grown, boardMm: { [side]: mm } }
    expect(sizeOf(made(own))[side]).toBe(mm)
    if (other === 'heightMm')
      expect(sizeOf(made(own)).heightMm).toBe(sizeOf(made({ ...own, boardMm: undefined })).heightMm)
    else expect(sizeOf(made(own)).widthMm).toBeLessThan(sizeOf(made({ ...own, boardMm: undefined })).widthMm)
  },
)

test('what is not known is noted in whole sentences', () => {
  const { note = '' } = made(usualPattern()).description
  for (const words of patternUntold) expect(note).toContain(words.slice(1))
  expect(note.match(/[.!?] [a-z]/g)).toBeNull()
})

test('a name that two supplies have is told apart from one that every card has', () => {
  const taken = (name: string) => {
    const board = boardFromPattern({
      ...usualPattern(),
      supplies: [...usualSupplies('180-ball', 256), { name, nominalV: 1, stages: 0, feeds: 'core' }],
    })
    return board.ok ? [] : board.faults.map(({ todo }) => todo)
  }
  expect(taken('3V3')).toEqual(['12V and 3V3 are there by themselves.'])
  expect(taken('VCORE')).toEqual([undefined])
})

test('a bus that no whole number of packages makes and a supply of a name that is taken are refused together', () => {
  const supplies = [...usualSupplies('180-ball', 256), { name: '12V', nominalV: 12, stages: 0, feeds: 'core' as const }]
  expect(refused({ ...usualPattern(), busBits: 80, supplies })).toEqual([
    '$.busBits: a multiple of 32 bit, which one package has',
    '$.supplies[4].name: a name that no other supply has',
  ])
})

test.each([
  [{ busBits: 256 }, '8 packages in a ring, 256 bit, one side'],
  [{ busBits: 192 }, '6 packages on three sides of the core, 192 bit, one side'],
  [{ busBits: 64 }, '2 packages on two sides of the core, 64 bit, one side'],
  [{ busBits: 256, sides: 'both' as const }, '16 packages in a ring, 256 bit, both sides'],
])('%j is like: %s', (own, words) => {
  expect(boardLikeness(made({ ...usualPattern(), ...own }))).toBe(words)
})
