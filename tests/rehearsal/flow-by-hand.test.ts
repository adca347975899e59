/** The flow on even ground: without roughness every step takes as long as it is, so that order and reach are worked by hand. */
import { describe, expect, it } from 'vitest'
import type { Random } from '../../src/base/index.ts'
import { flowGround, type Pour, pour } from '../../src/rehearsal/index.ts'
import { model } from './hand-card.ts'

type Ground = ReturnType<typeof flowGround>
const EVEN: Random = { next: () => 0.5, whole: () => 0, normal: () => 0 }
const [U1, U2] = ['U1', 'U2'].map((ref) => model.partByRef.get(ref))

/** Rows of `.` board, `#` none, `a` and `b` under a body; the first row lies lowest. */
function ground(rows: readonly string[], depthMm = 0): Ground {
  const columns = rows[0]?.length ?? 0
  const signs = rows.join('')
  return {
    side: 'top',
    cellMm: 1,
    columns,
    rows: rows.length,
    minX: 0,
    minY: 0,
    board: Uint8Array.from(signs, (sign) => (sign === '#' ? 0 : 1)),
    body: Int16Array.from(signs, (sign) => 'ab'.indexOf(sign)),
    depthMm: new Float32Array(signs.length).fill(depthMm),
    bodies: [U1, U2].flatMap((part) => part ?? []),
    regionCells: new Map(),
    corridorCells: new Map(),
  }
}

const FLAT: Pour = {
  from: [{ x: 2.5, y: 2.5 }],
  volumeMm3: 1,
  bareMm: 1,
  gapMm: 1,
  underBody: 1,
  deepestMm: Infinity,
  downDeg: undefined,
  runs: 0,
  closed: 0,
}
const OPEN = Array<string>(5).fill('.....')

/** The same rows with `o` where it got wet. */
function wetted(on: Ground, change: Partial<Pour>, random = EVEN): string[] {
  const { cells } = pour(on, { ...FLAT, ...change }, random)
  return Array.from({ length: on.rows }, (_, row) =>
    Array.from(cells.subarray(row * on.columns, (row + 1) * on.columns), (wet) => (wet === 1 ? 'o' : '.')).join(''),
  )
}

describe('a spill on even ground', () => {
  it.each<[number, string[]]>([
    [0, ['.....', '.....', '.....', '.....', '.....']],
    [1, ['.....', '.....', '..o..', '.....', '.....']],
    // neighbours are a millimetre away, corners √2, the next in line 2
    [5, ['.....', '..o..', '.ooo.', '..o..', '.....']],
    [9, ['.....', '.ooo.', '.ooo.', '.ooo.', '.....']],
    [13, ['..o..', '.ooo.', 'ooooo', '.ooo.', '..o..']],
    [99, ['ooooo', 'ooooo', 'ooooo', 'ooooo', 'ooooo']],
  ])('of %d mm³ wets the nearest cells first, 1 mm high', (volumeMm3, rows) => {
    expect(wetted(ground(OPEN), { volumeMm3 })).toEqual(rows)
  })

  it('covers half as much where it stands twice as high, and begun cells count whole', () => {
    expect(wetted(ground(OPEN), { volumeMm3: 10, bareMm: 2 })).toEqual(wetted(ground(OPEN), { volumeMm3: 5 }))
    expect(wetted(ground(OPEN), { volumeMm3: 4.1 })).toEqual(wetted(ground(OPEN), { volumeMm3: 5 }))
  })

  it.each<[number, string[]]>([
    // downhill a step takes 1 / (1 + 4 · 0.8) = 0.24, two of them 0.48, a corner √2 / (1 + 4 · 0.8 / √2) = 0.43, across 1
    [0, ['.....', '...o.', '..ooo', '...o.', '.....']],
    [90, ['.....', '.....', '..o..', '.ooo.', '..o..']],
    [180, ['.....', '.o...', 'ooo..', '.o...', '.....']],
    [270, ['..o..', '.ooo.', '..o..', '.....', '.....']],
  ])('runs down where %d° is down', (downDeg, rows) => {
    expect(wetted(ground(OPEN), { volumeMm3: 5, downDeg, runs: 0.8 })).toEqual(rows)
  })

  it('climbs last: across takes 1, uphill 3.4', () => {
    const strip = ground(['.....', '.....', '.....'])
    const from = [{ x: 2.5, y: 1.5 }]
    // down 0.24 and 0.48, their corners 1.41 / (1 + 4 · 0.57) = 0.43 and 0.67, across 1
    expect(wetted(strip, { from, volumeMm3: 9, downDeg: 0, runs: 0.8 })).toEqual(['..ooo', '..ooo', '..ooo'])
  })

  it('stays on the board, and wets nothing where it missed it', () => {
    const holed = ground(['.....', '.###.', '.#.#.', '.###.', '.....'])
    expect(wetted(holed, { volumeMm3: 9 })).toEqual(['.....', '.....', '..o..', '.....', '.....'])
    expect(wetted(holed, { volumeMm3: 9, from: [{ x: 1.5, y: 1.5 }] })).toEqual(Array(5).fill('.....'))
  })

  it('starts at each of its points at once', () => {
    const from = [
      { x: 0.5, y: 0.5 },
      { x: 4.5, y: 4.5 },
    ]
    expect(wetted(ground(OPEN), { from, volumeMm3: 6 })).toEqual(['oo...', 'o....', '.....', '....o', '...oo'])
  })

  it('does not pass cells that are blocked', () => {
    const blocked: Random = { ...EVEN, next: () => 0.04 }
    expect(wetted(ground(OPEN), { volumeMm3: 9 }, blocked)).toEqual(wetted(ground(OPEN), { volumeMm3: 1 }))
  })
})

describe('a spill beside a body', () => {
  const row = (signs: string): Ground => ground([signs])
  const from = [{ x: 1.5, y: 0.5 }]
  const along = (on: Ground, change: Partial<Pour>): string | undefined => wetted(on, { from, ...change })[0]

  it('goes under it where its gap is open, and around where it is closed', () => {
    expect(along(row('..aa.'), { volumeMm3: 4 })).toBe('oooo.')
    // half the bodies are closed below one half, and this one draws one half
    expect(along(row('..aa.'), { volumeMm3: 4, closed: 0.6 })).toBe('oo...')
    expect(along(row('..aa.'), { volumeMm3: 4, closed: 0.5 })).toBe('oooo.')
  })

  it('fills the gap there, not the height on open board', () => {
    // 1 + 1 on the board, 0.25 in each cell of the gap
    expect(along(row('..aaaa'), { volumeMm3: 2.5, gapMm: 0.25 })).toBe('oooo..')
  })

  it('is drawn in, or held back', () => {
    expect(along(row('..aaa'), { volumeMm3: 3, underBody: 0.25 })).toBe('.ooo.')
    expect(along(row('..aaa'), { volumeMm3: 2, underBody: 4 })).toBe('oo...')
  })

  it('comes no deeper than it creeps: 0.9 of what is said, on an even draw', () => {
    const creeps = (deepestMm: number, depthMm: number) =>
      along(ground(['..a..'], depthMm), { volumeMm3: 5, deepestMm })
    expect(creeps(2, 1.75)).toBe('ooooo')
    expect(creeps(2, 1.85)).toBe('oo...')
    expect(creeps(0, 0)).toBe('ooooo')
  })
})

describe('the ground of a board', () => {
  const top = flowGround(model, 'top')
  const bottom = flowGround(model, 'bottom')
  const cell = (x: number, y: number): number => Math.floor(y) * 120 + Math.floor(x)

  it('is the board in cells of 1 mm without its holes', () => {
    expect(top).toMatchObject({ side: 'top', cellMm: 1, columns: 120, rows: 80, minX: 0, minY: 0 })
    expect(flowGround(model, 'top')).toBe(top)
    // a drill of 3 mm at (5, 5): 1.5 to its rim; a cut-out with corners (5, 60), (10, 60), (10, 70)
    const at = (x: number, y: number) => top.board[cell(x, y)]
    // middles at 0.7, 1.58 and 1.58 from the drill's
    expect([at(5, 5), at(6, 5), at(3, 5)]).toEqual([0, 1, 1])
    expect([at(4, 4), at(5, 4), at(4, 5)]).toEqual([0, 0, 0])
    expect([at(9, 61), at(6, 68), at(4, 61)]).toEqual([0, 1, 1])
    expect([at(0, 0), at(119, 79)]).toEqual([1, 1])
  })

  it('has the bodies of its side, each with how deep under it a cell lies', () => {
    expect(top.bodies.map(({ ref }) => ref)).toEqual(['U1', 'U2', 'S1'])
    expect(bottom.bodies.map(({ ref }) => ref)).toEqual(['U3'])
    const at = (x: number, y: number) => [top.bodies[top.body[cell(x, y)] ?? -1]?.ref, top.depthMm[cell(x, y)]]
    // the core reaches from 45.5 to 74.5 and from 25.5 to 54.5: 14 from the middle of (59, 39)
    expect(at(59, 39)).toEqual(['U1', 14])
    expect(at(46, 40)).toEqual(['U1', 1])
    expect(at(44, 40)).toEqual([undefined, 0])
    // memory from 88 to 102 and from 34 to 46
    expect(at(90, 40)).toEqual(['U2', 2.5])
    expect(bottom.body[cell(25, 40)]).toBe(0)
    expect(bottom.body[cell(60, 40)]).toBe(-1)
  })

  it('has the cells of each region and of each track that no body covers', () => {
    expect([...top.regionCells.keys()].every((id) => model.regionById.get(id)?.side === 'top')).toBe(true)
    expect([...bottom.regionCells.keys()]).toEqual(
      model.regions.flatMap(({ id, side }) => (side === 'bottom' ? [id] : [])),
    )
    for (const cells of top.regionCells.values()) expect(cells.length).toBeGreaterThan(0)
    // U2 is covered by its regions once at most: no cell twice in one
    for (const cells of top.regionCells.values()) expect(new Set(cells).size).toBe(cells.length)
    expect([...top.corridorCells.keys()]).toEqual(['U2.A0', 'U2.A1', 'U2.B0', 'U2.B1'])
    // from the core's rim at 74.5 to the memory's at 88: the cells 75 to 87 at least
    const columns = [...(top.corridorCells.get('U2.B0') ?? [])].map((each) => each % 120)
    expect(columns.every((column) => column >= 74 && column <= 88)).toBe(true)
    for (let column = 75; column <= 87; column++) expect(columns).toContain(column)
    expect(new Set(top.corridorCells.get('U2.B0')).size).toBe(columns.length)
  })
})
