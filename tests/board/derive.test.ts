/** Regions, corridors and lanes that a board leaves out, and how parts of the bottom side are mirrored. */
import { describe, expect, test } from 'vitest'
import { type Point, polygonContains } from '../../src/base/index.ts'
import { type BoardModel, boardSchema, deriveModel, loadBoard, type Region } from '../../src/board/index.ts'
import { SHIPPED, shippedBoard } from '../support/read-board.ts'
import { smallBoard } from '../support/small-board.ts'
import { unsoundIn } from '../support/sound-model.ts'

const small = (): BoardModel => deriveModel(boardSchema.parse(smallBoard()))

function region(model: BoardModel, id: string): Region {
  const found = model.regionById.get(id)
  if (!found) throw new Error(`no region ${id}`)
  return found
}

const close = (a: Point | undefined, b: Point): void => {
  expect(a?.x).toBeCloseTo(b.x, 9)
  expect(a?.y).toBeCloseTo(b.y, 9)
}

/**
 * By hand, from the grid (0.75 mm, columns 1 to 14 about 7.5, 18 rows about 8.5): the A0 patch (columns 2 to 4, rows B to
 * F) reaches x from -4.5 to -2.25 and y from 2.25 to 6, so its middle is (-3.375, 4.125) and its area 2.25 x 3.75.
 */
describe('a region of a package lies where its balls lie', () => {
  test('turned by 270 degrees: (x, y) becomes (y, -x)', () => {
    const a0 = region(small(), 'U2/A0')
    close(a0.centre, { x: 95 + 4.125, y: 40 + 3.375 })
    expect(a0.areaMm2).toBeCloseTo(8.4375, 9)
    expect(a0).toMatchObject({ side: 'top', role: 'lane', from: 'package', lanes: ['U2.A0'] })
  })

  test('on the bottom: x changes its sign, seen through the board', () => {
    const a0 = region(small(), 'U3/A0')
    close(a0.centre, { x: 25 + 3.375, y: 40 + 4.125 })
    expect(a0.side).toBe('bottom')
    close(
      small()
        .partByRef.get('U3')
        ?.pads.find((pad) => pad.number === 'A1')?.at,
      { x: 25 + 4.875, y: 40 + 6.375 },
    )
  })

  test('command regions fail the lanes that they serve, and the clock’s all of the package', () => {
    expect(region(small(), 'U2/CA-A').lanes).toEqual(['U2.A0', 'U2.A1'])
    expect(region(small(), 'U2/CA-B').lanes).toEqual(['U2.B0', 'U2.B1'])
    expect(region(small(), 'U2/CK').lanes).toEqual(['U2.A0', 'U2.A1', 'U2.B0', 'U2.B1'])
    expect(region(small(), 'U1/VCORE')).toMatchObject({ role: 'power' })
    expect(region(small(), 'U1/VCORE').lanes.length).toBe(8)
  })
})

describe('corridors', () => {
  test('run on the memory’s side, from the core’s region to the memory’s, 0.35 mm a bit and 0.6 mm wide', () => {
    const model = small()
    for (const corridor of model.corridors) {
      const lane = model.laneById.get(corridor.lane)
      const [from, to] = corridor.path
      expect(corridor.side).toBe(model.partByRef.get(lane?.part ?? '')?.side)
      expect(corridor.widthMm).toBeCloseTo(0.35 * 8 + 0.6, 9)
      for (const [end, id] of [
        [from, lane?.coreRegion],
        [to, lane?.memoryRegion],
      ] as const)
        expect(distanceToEdge(region(model, id ?? '').polygon, end ?? { x: NaN, y: NaN })).toBeLessThan(1e-9)
    }
  })

  test('a drawn one is kept as it is', () => {
    const board = smallBoard()
    const path = [
      { x: 70, y: 40 },
      { x: 80, y: 45 },
      { x: 90, y: 45 },
    ]
    Object.assign(board.memory?.channels[0]?.lanes[0] ?? {}, { corridor: path, corridorWidthMm: 2 })
    const model = deriveModel(boardSchema.parse(board))
    expect(model.corridorByLane.get('U2.A0')).toEqual({ lane: 'U2.A0', path, widthMm: 2, side: 'top', from: 'drawn' })
  })
})

function distanceToEdge(polygon: readonly Point[], point: Point): number {
  let nearest = Infinity
  for (const [i, b] of polygon.entries()) {
    const a = polygon.at(i - 1) ?? b
    const length = Math.hypot(b.x - a.x, b.y - a.y)
    const t = Math.min(1, Math.max(0, ((point.x - a.x) * (b.x - a.x) + (point.y - a.y) * (b.y - a.y)) / length ** 2))
    nearest = Math.min(nearest, Math.hypot(point.x - a.x - t * (b.x - a.x), point.y - a.y - t * (b.y - a.y)))
  }
  return nearest
}

const nearestFirst = (refs: readonly string[], to: Point, placeOf: (ref: string) => Point): string[] =>
  refs.toSorted((a, b) => apart(placeOf(a), to) - apart(placeOf(b), to))

const middleOf = (model: BoardModel, ref: string): Point => model.partByRef.get(ref)?.placement.at ?? { x: NaN, y: NaN }

/** Mean of the core regions of a memory part’s lanes. */
function coreSideOf(model: BoardModel, ref: string): Point {
  const own = model.lanes.filter((lane) => lane.part === ref).map((lane) => region(model, lane.coreRegion ?? '').centre)
  const sum = own.reduce((a, b) => ({ x: a.x + b.x, y: a.y + b.y }), { x: 0, y: 0 })
  return { x: sum.x / own.length, y: sum.y / own.length }
}

const regionsAt = (regions: readonly Region[], point: Point): string[] =>
  regions.filter(({ polygon }) => polygonContains(polygon, point)).map(({ id }) => id)

const apart = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y)

describe.each(SHIPPED)('%s', (name) => {
  const model = shippedBoard(name)
  const core = model.core
  if (!core) throw new Error('no core')
  const coreRegions = model.regions.filter((candidate) => candidate.part === core.ref)

  test('is a sound model', () => {
    expect(unsoundIn(model)).toEqual([])
  })

  test('has core regions within the core’s body, of which none overlaps another', () => {
    for (const { polygon } of coreRegions)
      for (const { x, y } of polygon) {
        expect(Math.abs(x - core.placement.at.x)).toBeLessThanOrEqual(core.widthMm / 2)
        expect(Math.abs(y - core.placement.at.y)).toBeLessThanOrEqual(core.lengthMm / 2)
      }
    const stepMm = 0.4
    let covered = 0
    for (let y = core.box.minY + stepMm / 2; y < core.box.maxY; y += stepMm)
      for (let x = core.box.minX + stepMm / 3; x < core.box.maxX; x += stepMm) {
        const over = regionsAt(coreRegions, { x, y })
        expect(over.slice(1)).toEqual([])
        covered += over.length
      }
    const areaMm2 = coreRegions.reduce((sum, { areaMm2: own }) => sum + own, 0)
    expect((covered * stepMm ** 2) / areaMm2).toBeCloseTo(1, 1)
  })

  test('has, on the core, the regions of neighbouring packages next to each other', () => {
    for (const { ref } of model.memories) {
      const others = model.memories.map((other) => other.ref).filter((other) => other !== ref)
      const byCore = nearestFirst(others, coreSideOf(model, ref), (other) => coreSideOf(model, other))
      const byBoard = nearestFirst(others, middleOf(model, ref), (other) => middleOf(model, other))
      expect(byBoard.slice(0, 3)).toContain(byCore[0])
    }
  })

  test('has each lane’s core region on the side of its package', () => {
    for (const lane of model.lanes) {
      const there = region(model, lane.coreRegion ?? '').centre
      expect(apart(there, middleOf(model, lane.part))).toBeLessThan(
        apart(core.placement.at, middleOf(model, lane.part)),
      )
    }
  })
})

test('lanes of one channel may end in two packages back to back', () => {
  const model = shippedBoard('sheet-bend-16')
  const shared = model.channels.filter((channel) => channel.parts.length === 2)
  expect(shared.length).toBe(model.channels.length)
  for (const channel of shared) {
    const sides = channel.parts.map((ref) => model.partByRef.get(ref)?.side)
    expect(new Set(sides)).toEqual(new Set(['bottom', 'top']))
  }
})

// Source: clamshell figure of a memory maker's 8 Gb GDDR6 brief: seen through the board, the byte of the back package that
// is used lies where the front's unused byte is, so that the pair looks like one x16 package.
test('back to back, used bytes of the back lie behind unused ones of the front', () => {
  const model = shippedBoard('sheet-bend-16')
  for (const [front, back] of [
    ['A1', 'B1'],
    ['B0', 'A0'],
  ]) {
    const [behind, before] = [region(model, `U31/${back}`).centre, region(model, `U11/${front}`).centre]
    expect(apart(behind, before)).toBeLessThan(1e-9)
  }
})

const ball = (number: string, x: number, y: number, signal?: string): object => ({
  number,
  at: { x, y },
  widthMm: 0.4,
  lengthMm: 0.4,
  ...(signal === undefined ? {} : { signal }),
})

describe('a board without packages', () => {
  const command = ['CK_t', '~{CS}', 'A14/~{WE}', 'BA0'].map((signal, i) => ball(`K${i}`, i * 0.8 - 1.2, -3, signal))
  const field = Array.from({ length: 16 }, (_, i) => ball(`D${i}`, (i % 4) * 0.8 - 1.2, 3 - Math.floor(i / 4) * 0.8))
  const body = { widthMm: 8, lengthMm: 10, heightMm: 1 }
  const board = {
    ...smallBoard(),
    rails: [],
    addressMap: undefined,
    parts: [
      { ref: 'IC1', kind: 'core', side: 'top', at: { x: 40, y: 40 }, rotationDeg: 90, body, pads: field },
      { ref: 'IC2', kind: 'memory', side: 'top', at: { x: 70, y: 40 }, body, pads: [...field, ...command] },
    ],
    memory: {
      channels: [
        {
          id: '0',
          part: 'IC2',
          lanes: [
            { name: 'L', bits: [0, 1, 4, 5].map((i) => ({ memoryBall: `D${i}`, coreBall: `D${i + 2}` })) },
            { name: 'U', bits: [10, 11, 14, 15].map((i) => ({ memoryBall: `D${i}` })) },
          ],
        },
      ],
    },
  }
  const loaded = loadBoard(JSON.parse(JSON.stringify(board)))
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.faults))
  const model = loaded.value

  test('has the regions that its lanes’ balls span, half a pitch around them', () => {
    expect(unsoundIn(model)).toEqual([])
    // Balls D0 D1 D4 D5: x -1.2 and -0.4, y 3 and 2.2; pitch 0.8.
    const lower = region(model, 'IC2/L')
    close(lower.centre, { x: 70 - 0.8, y: 40 + 2.6 })
    expect(lower.areaMm2).toBeCloseTo(1.6 * 1.6, 9)
    expect(lower.from).toBe('derived')
    // On the core, turned by 90 degrees: (x, y) becomes (-y, x); balls D2 D3 D6 D7 about (0.8, 2.6).
    close(region(model, 'IC1/IC2.L').centre, { x: 40 - 2.6, y: 40 + 0.8 })
  })

  test('has a command region from the signals’ names', () => {
    const found = region(model, 'IC2/CA')
    expect(found).toMatchObject({ role: 'command', lanes: ['IC2.L', 'IC2.U'] })
    close(found.centre, { x: 70, y: 40 - 3 })
  })

  test('gives lanes whose core balls are unknown a patch on the side of their memory', () => {
    expect(region(model, 'IC1/IC2.U').from).toBe('derived')
    // The core's balls lie at x 37 to 39.4; IC2 is to their right.
    expect(region(model, 'IC1/IC2.U').centre.x).toBeGreaterThan(38.2)
  })
})

test('swaps say which ball carries which data bit', () => {
  const board = smallBoard()
  const [, memory] = board.parts
  Object.assign(memory ?? {}, { package: '96-ball-ddr4' })
  board.memory = {
    channels: [{ id: 'CH0', part: 'U2', lanes: [{ name: 'L', swaps: [7, 6, 5, 4, 3, 2, 1, 0] }, { name: 'U' }] }],
  }
  delete board.addressMap
  const model = deriveModel(boardSchema.parse(board))
  // JESD79-4 x16, as an open KiCad board has it: DQL7 is J7, DQL0 is G2, DQU0 is A3.
  expect(model.laneById.get('U2.L')?.memoryBalls[0]).toBe('J7')
  expect(model.laneById.get('U2.L')?.memoryBalls[7]).toBe('G2')
  expect(model.laneById.get('U2.U')).toMatchObject({ firstBit: 8, bitCount: 8 })
  expect(model.laneById.get('U2.U')?.memoryBalls[0]).toBe('A3')
})
