/** Package outlines: balls, bodies, regions and data balls, against the standards. */
import { describe, expect, test } from 'vitest'
import { boxOf, polygonContains } from '../../src/base/index.ts'
import { ballsOf, packageOutlineSchema, packageOutlines, type PackageOutline, patchOf } from '../../src/board/index.ts'

function outline(name: string): PackageOutline {
  const found = packageOutlines.get(name)
  if (!found) throw new Error(`no outline ${name}`)
  return found
}

const dqOf = (name: string, region: string): readonly string[] | undefined =>
  outline(name).regions.find((candidate) => candidate.name === region)?.dq

// JEDEC JESD212 (GDDR5 SGRAM: 170 balls, 12 x 14 mm, 0.8 mm), JESD250D (GDDR6, 2023: 180 balls, 12 x 14 mm, 0.75 mm),
// JESD232A (GDDR5X, 2016: 190 balls, 10 x 14 mm, 0.65 mm). From memory. GDDR7 (JESD239, 2024): 266 balls, as reported when it
// was published; its body and pitch, and those of LPDDR5 (315 balls) and DDR5 x16 (102 balls): from memory.
test.each([
  ['170-ball', 170, 12, 14, 0.8],
  ['180-ball', 180, 12, 14, 0.75],
  ['190-ball', 190, 10, 14, 0.65],
  ['266-ball', 266, 12, 14, 0.75],
  ['315-ball', 315, 12.4, 15, 0.8],
  ['102-ball', 102, 9, 14, 0.8],
])('%s has %i balls on %f x %f mm at %f mm', (name, balls, widthMm, lengthMm, pitchMm) => {
  const { body, grid } = outline(name)
  expect(ballsOf(outline(name)).length).toBe(balls)
  expect([body.widthMm, body.lengthMm, grid.pitchXMm]).toEqual([widthMm, lengthMm, pitchMm])
})

const onBalls = [...packageOutlines].filter(([, { joints }]) => joints === 'balls')

describe.each(onBalls)('%s', (_, shape) => {
  const balls = ballsOf(shape)
  const place = new Map(balls.map((ball) => [ball.name, ball.at]))
  const body = [-1, 1].map((sign) => ({ x: (sign * shape.body.widthMm) / 2, y: (sign * shape.body.lengthMm) / 2 }))

  test('has as many balls as it says, each once, all under the body', () => {
    expect(place.size).toBe(shape.ballCount)
    expect(balls.length).toBe(shape.ballCount)
    const box = boxOf(balls.map((ball) => ball.at))
    const edge = boxOf(body)
    expect(box.minX - shape.ballDiameterMm / 2).toBeGreaterThan(edge.minX)
    expect(box.maxY + shape.ballDiameterMm / 2).toBeLessThan(edge.maxY)
  })

  test('has its field centred, with A1 upper left', () => {
    const box = boxOf(balls.map((ball) => ball.at))
    expect(box.minX + box.maxX).toBeCloseTo(0, 9)
    expect(box.minY + box.maxY).toBeCloseTo(0, 9)
    expect(place.get('A1')).toEqual({ x: box.minX, y: box.maxY })
  })

  test('names only balls that it has, and each for one signal', () => {
    const named = [...shape.regions.flatMap((region) => region.dq ?? []), ...Object.keys(shape.signals ?? {})]
    expect(named.filter((name) => !place.has(name))).toEqual([])
    expect(new Set(named).size).toBe(named.length)
  })

  test('has every known data ball within its lane’s patch, and patches that share no ball', () => {
    const patches = shape.regions.map((region) => ({ region, polygon: patchOf(shape, region) }))
    for (const { region, polygon } of patches)
      for (const ball of region.dq ?? [])
        expect(polygonContains(polygon, place.get(ball) ?? { x: NaN, y: NaN })).toBe(true)
    for (const { at } of balls)
      expect(patches.filter(({ polygon }) => polygonContains(polygon, at)).length).toBeLessThan(2)
  })

  test('says where its figures are from', () => {
    expect(shape.source.length).toBeGreaterThan(40)
  })
})

// JESD239 (GDDR7, 2024), as reported when it was published: four channels of 8 bits, each with commands of its own.
// JESD209-5 (LPDDR5): two channels of 16 bits. From memory.
test.each([
  ['266-ball', [['A'], ['B'], ['C'], ['D']]],
  [
    '315-ball',
    [
      ['A0', 'A1'],
      ['B0', 'B1'],
    ],
  ],
])('the channels of %s are those of its standard', (name, channels) => {
  const commands = outline(name).regions.filter(({ role }) => role === 'command')
  const own = commands.map(({ serves = [] }) => serves).filter((served) => served.length === channels[0]?.length)
  expect(own).toEqual(channels)
})

// Source: an open KiCad 9 demo board (vme-wren of kicad-demos 9.0.8) with two 96-ball x16 DDR4: pin names of the file.
const DDR4_OF_AN_OPEN_BOARD = {
  L: ['G2', 'F7', 'H3', 'H7', 'H2', 'H8', 'J3', 'J7'],
  U: ['A3', 'B8', 'C3', 'C7', 'C2', 'C8', 'D3', 'D7'],
  other: {
    CK_t: 'K7',
    CK_c: 'K8',
    CKE: 'K2',
    ODT: 'K3',
    CS_n: 'L7',
    ACT_n: 'L3',
    BG0: 'M2',
    BA0: 'N2',
    BA1: 'N8',
    A0: 'P3',
    A1: 'P7',
    A2: 'R3',
    A3: 'N7',
    A4: 'N3',
    A5: 'P8',
    A6: 'P2',
    A7: 'R8',
    A8: 'R2',
    A9: 'R7',
    A10: 'M3',
    A11: 'T2',
    A12: 'M7',
    A13: 'T8',
    A14: 'L2',
    A15: 'M8',
    A16: 'L8',
    RESET_n: 'P1',
    PAR: 'T3',
    ALERT_n: 'P9',
    DQSL_t: 'G3',
    DQSL_c: 'F3',
    DQSU_t: 'B7',
    DQSU_c: 'A7',
    DML_n: 'E7',
    DMU_n: 'E2',
  },
}

test('the DDR4 ball map agrees with an open board, ball by ball', () => {
  expect(dqOf('96-ball-ddr4', 'L')).toEqual(DDR4_OF_AN_OPEN_BOARD.L)
  expect(dqOf('96-ball-ddr4', 'U')).toEqual(DDR4_OF_AN_OPEN_BOARD.U)
  const signals = outline('96-ball-ddr4').signals ?? {}
  for (const [signal, ball] of Object.entries(DDR4_OF_AN_OPEN_BOARD.other))
    expect({ ball, signal: signals[ball] }).toEqual({ ball, signal })
})

// Source: ball map of a memory maker's 8 Gb GDDR6 brief: rows B to F channel A, N to U channel B; columns 2 to 4 byte 0,
// 11 to 13 byte 1.
test('the 180-ball bytes sit in the four quadrants', () => {
  const byName = new Map(outline('180-ball').regions.map((region) => [region.name, region]))
  expect(byName.get('A0')).toMatchObject({ rows: ['B', 'F'], columns: [2, 4] })
  expect(byName.get('A1')).toMatchObject({ rows: ['B', 'F'], columns: [11, 13] })
  expect(byName.get('B0')).toMatchObject({ rows: ['N', 'U'], columns: [2, 4] })
  expect(byName.get('B1')).toMatchObject({ rows: ['N', 'U'], columns: [11, 13] })
})

test('an outline whose figures are no figures is refused', () => {
  const broken = { ...outline('180-ball'), standoffMm: -1, grid: { ...outline('180-ball').grid, pitchXMm: 0 } }
  const parsed = packageOutlineSchema.safeParse(broken)
  expect(parsed.error?.issues.map((issue) => issue.path.join('.'))).toEqual(['standoffMm', 'grid.pitchXMm'])
})
