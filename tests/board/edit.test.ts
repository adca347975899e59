/** What each edit does to a small board, what it refuses, and how the check names what an edit broke. */
import { describe, expect, test } from 'vitest'
import { readFileSync, readdirSync } from 'node:fs'
import { sayFault } from '../../src/base/index.ts'
import {
  applyEdit,
  type BoardDescription,
  type BoardEdit,
  boardFaults,
  boardSchema,
  beginSession,
  editSession,
  freeRefs,
  loadBoard,
  overlapsOf,
  partBox,
  placeOfFault,
  readBoard,
  sayEdit,
  undoSession,
} from '../../src/board/index.ts'
import { faultsIn, unwrap } from '../support/board-fixture.ts'
import { smallBoard } from '../support/small-board.ts'

const small = boardSchema.parse(smallBoard())
const after = (edit: BoardEdit, board: BoardDescription = small): BoardDescription => unwrap(applyEdit(board, edit))
const why = (edit: BoardEdit): string[] => faultsIn(applyEdit(small, edit)).map(sayFault)
const part = (board: BoardDescription, ref: string) => board.parts.find((each) => each.ref === ref)
const rail = (board: BoardDescription, name = 'VMEM') => board.rails.find((each) => each.name === name)
const sound = (board: BoardDescription) => unwrap(loadBoard(board))

describe('placing', () => {
  test('a probe point on a part goes with it, and turns with it', () => {
    const moved = after({ kind: 'move', refs: ['S1'], byMm: { x: -10, y: -2 } })
    expect(rail(moved)?.points[0]?.at).toEqual({ x: 52, y: 66 })
    const turned = after({ kind: 'rotate', refs: ['S1'], byDeg: 180, about: 'each' })
    expect(rail(turned)?.points[0]?.at).toEqual({ x: 58, y: 72 })
    const over = after({ kind: 'change-side', refs: ['S1'], to: 'bottom' })
    expect(rail(over)?.points[0]).toMatchObject({ side: 'bottom', at: { x: 58, y: 68 } })
  })

  test('a drawn corridor keeps its ends on core and memory, its middle where it was', () => {
    const corridor = [
      { x: 74, y: 40 },
      { x: 80, y: 45 },
      { x: 88, y: 41 },
    ]
    const drawn = boardSchema.parse(smallBoard())
    const lane = drawn.memory.channels[0]?.lanes[0]
    if (lane !== undefined) lane.corridor = corridor
    const moved = after({ kind: 'move', refs: ['U2'], byMm: { x: 3, y: 0 } }, drawn)
    expect(moved.memory.channels[0]?.lanes[0]?.corridor).toEqual([corridor[0], corridor[1], { x: 91, y: 41 }])
    const core = after({ kind: 'move', refs: ['U1'], byMm: { x: 0, y: 1 } }, drawn)
    expect(core.memory.channels[0]?.lanes[0]?.corridor).toEqual([{ x: 74, y: 41 }, corridor[1], corridor[2]])
  })

  test('a place that no board file can say is refused', () => {
    expect(why({ kind: 'move', refs: ['U2'], byMm: { x: 1950, y: 0 } })).toEqual([
      'U2: found a place at (2045, 40), expected a place within 2000 mm.',
    ])
  })

  test('several parts turn about the middle of their bodies', () => {
    const turned = after({ kind: 'rotate', refs: ['U2', 'U3'], byDeg: 180, about: 'middle' })
    const edges = (board: BoardDescription) =>
      ['U2', 'U3'].flatMap((ref) => {
        const one = part(board, ref)
        return one === undefined ? [] : [partBox(one).minX, partBox(one).maxX]
      })
    expect(Math.min(...edges(turned))).toBeCloseTo(Math.min(...edges(small)), 6)
    expect(Math.max(...edges(turned))).toBeCloseTo(Math.max(...edges(small)), 6)
    expect(part(turned, 'U2')?.rotationDeg).toBe(90)
  })
})

describe('parts', () => {
  test('a part from a package is added; a ref that is taken, a slash or an unknown package is refused', () => {
    const added = {
      ref: 'U4',
      kind: 'memory',
      side: 'top',
      at: { x: 25, y: 70 },
      package: '180-ball',
      rotationDeg: 0,
      bonding: 'none',
    } as const
    expect(sound(after({ kind: 'add-part', part: added })).memories).toHaveLength(3)
    expect(why({ kind: 'add-part', part: { ...added, ref: 'U2' } })[0]).toMatch(/has this ref already/)
    expect(why({ kind: 'add-part', part: { ...added, ref: 'U/4' } })[0]).toMatch(/slash/)
    expect(why({ kind: 'add-part', part: { ...added, package: '9-ball' } })[0]).toMatch(/expected one of 170-ball/)
  })

  test('free refs count on from the highest of the same letters', () => {
    expect(freeRefs(small, 'U2', 2)).toEqual(['U4', 'U5'])
    expect(freeRefs(small, 'C')).toEqual(['C1'])
  })

  test('copies in rows stand at their step and in the rails of their originals', () => {
    const grown = after({ kind: 'array', refs: ['S1'], columns: 3, rows: 2, pitchMm: { x: 7, y: -8 } })
    expect(grown.parts.slice(-5).map(({ ref, at }) => [ref, at.x, at.y])).toEqual([
      ['S2', 67, 70],
      ['S3', 74, 70],
      ['S4', 60, 62],
      ['S5', 67, 62],
      ['S6', 74, 62],
    ])
    expect(rail(grown)?.stages).toEqual(['S1', 'S2', 'S3', 'S4', 'S5', 'S6'])
    expect(rail(grown)?.points).toHaveLength(1)
    expect(why({ kind: 'array', refs: ['U1'], columns: 2, rows: 1, pitchMm: { x: 40, y: 0 } })[0]).toMatch(/a core/)
    expect(why({ kind: 'array', refs: ['S1'], columns: 2, rows: 1, pitchMm: { x: 0, y: 9 } })[0]).toMatch(/0 mm/)
  })

  test('a memory that is taken away goes from rails, branches and channels; the check names the map that lacks it', () => {
    const left = after({ kind: 'remove', refs: ['U2'] })
    expect(rail(left)).toMatchObject({ feeds: ['U3'], branches: [] })
    expect(left.memory.channels.map(({ id }) => id)).toEqual(['CH2', 'CH3'])
    expect(faultsIn(loadBoard(left)).map(({ path, found }) => `${path} ${found}`)).toEqual([
      '$.addressMap.channel.order[0] "CH0", which no channel has',
      '$.addressMap.channel.order[1] "CH1", which no channel has',
    ])
    expect(faultsIn(loadBoard(after({ kind: 'forget-address-map' }, left)))).toEqual([])
    expect(why({ kind: 'remove', refs: small.parts.map(({ ref }) => ref) })[0]).toMatch(/every part of the board/)
  })

  test('a part that is renamed is called so everywhere', () => {
    const words = [{ title: 'run', look: ['#'], names: { north: 'U2', half: ['U2.A0', 'U2.A1'] } }]
    const renamed = after({ kind: 'rename', ref: 'U2', to: 'U9' }, { ...small, reportWords: words })
    expect(JSON.stringify(renamed)).not.toContain('"U2')
    expect(renamed.reportWords?.[0]?.names).toEqual({ north: 'U9', half: ['U9.A0', 'U9.A1'] })
    expect(sound(renamed).lanes.filter((lane) => lane.part === 'U9')).toHaveLength(4)
  })

  test('a region that the core draws for a lane is called by the lane’s new id', () => {
    const region = {
      name: 'U2.A0',
      polygon: [
        { x: 8, y: -2 },
        { x: 12, y: -2 },
        { x: 12, y: 2 },
      ],
    }
    const drawn = {
      ...small,
      parts: small.parts.map((each) => (each.ref === 'U1' ? { ...each, regions: [region] } : each)),
    }
    const renamed = sound(after({ kind: 'rename', ref: 'U2', to: 'U9' }, drawn))
    expect(renamed.regionById.get('U1/U9.A0')?.from).toBe('drawn')
  })

  test('fields of a part change and go; a part without body and package is refused', () => {
    const told = after({ kind: 'change-part', ref: 'U2', change: { heatCount: 2, bonding: 'underfill' } })
    expect(part(told, 'U2')).toMatchObject({ heatCount: 2, bonding: 'underfill' })
    expect(part(after({ kind: 'change-part', ref: 'U2', change: { heatCount: null } }, told), 'U2')).not.toHaveProperty(
      'heatCount',
    )
    expect(why({ kind: 'change-part', ref: 'U2', change: { package: null } })[0]).toMatch(/neither body nor package/)
  })
})

describe('a session', () => {
  test('joins steps of one key, drops what could be redone, and takes no step for nothing', () => {
    const nudge: BoardEdit = { kind: 'move', refs: ['U2'], byMm: { x: 0.1, y: 0 } }
    const twice = unwrap(editSession(unwrap(editSession(beginSession(small), nudge, 'nudge U2')), nudge, 'nudge U2'))
    expect(twice.past).toHaveLength(1)
    expect(undoSession(twice).board).toBe(small)
    const still = editSession(twice, { kind: 'move', refs: ['U2'], byMm: { x: 0, y: 0 } })
    expect(unwrap(still)).toBe(twice)
    const other = unwrap(editSession(undoSession(twice), { kind: 'rename-board', to: 'mine' }))
    expect(other.future).toEqual([])
    expect(other.past.map(({ words }) => words)).toEqual(['the board renamed mine'])
    expect(sayEdit(nudge)).toBe('U2 moved by 0.1 mm')
  })
})

describe('what the check names', () => {
  test('is found on the board: the part, the rail, the lane, the place', () => {
    const off = after({ kind: 'change-part', ref: 'U2', change: { kind: 'other' } })
    const places = faultsIn(loadBoard(off)).map(({ path }) => placeOfFault(off, path))
    expect(places.map(({ words }) => words)).toEqual(['channel CH0', 'channel CH1'])
    expect(places[0]?.refs).toEqual(['U2'])
    const unfed = { ...small, rails: small.rails.map((each) => ({ ...each, feeds: ['U3'] })) }
    const [fault] = faultsIn(loadBoard(unfed))
    expect(placeOfFault(unfed, fault?.path ?? '')).toMatchObject({ rail: 'VMEM', refs: ['U2'] })
    expect(placeOfFault(small, '$.holes[0].at')).toMatchObject({ points: [{ x: 5, y: 5 }], words: 'hole 1' })
    expect(placeOfFault(small, '$.addressMap.channel.order[3]').words).toBe('address map')
    expect(placeOfFault(small, '$.memory.channels[2].lanes[1].name')).toMatchObject({
      refs: ['U3'],
      words: 'lane U3.A1',
    })
  })

  test('two cores are named where the second came from', () => {
    const edited = after({ kind: 'change-part', ref: 'S1', change: { kind: 'core' } })
    expect(faultsIn(loadBoard(edited)).map(({ path }) => placeOfFault(edited, path).refs)).toEqual([['S1']])
  })
})

describe('bodies in one another', () => {
  test('are told with how deep, on one side only, and by the true outline of a turned body', () => {
    const into = after({ kind: 'place', ref: 'S1', at: { x: 60, y: 57 } })
    expect(overlapsOf(into).map(({ refs, byMm }) => [...refs, Number(byMm.toFixed(3))])).toEqual([['U1', 'S1', 0.5]])
    expect(overlapsOf(after({ kind: 'change-side', refs: ['S1'], to: 'bottom' }, into))).toEqual([])
    const corner = after({ kind: 'place', ref: 'S1', at: { x: 77.4, y: 57.4 } })
    const turned = after({ kind: 'rotate', refs: ['S1'], byDeg: 45, about: 'each' }, corner)
    expect(overlapsOf(turned)).toEqual([])
  })

  test.each(readdirSync('boards').filter((name) => name.endsWith('.json') && name !== 'schema.json'))(
    '%s has none',
    (name) => {
      expect(overlapsOf(unwrap(readBoard(readFileSync(`boards/${name}`, 'utf8'))).description)).toEqual([])
    },
  )
})

describe('the check under the hand', () => {
  test.each([
    ['a sound board', small],
    ['one with a second core', after({ kind: 'change-part', ref: 'S1', change: { kind: 'core' } })],
    ['one without a memory that its map knows', after({ kind: 'remove', refs: ['U3'] })],
  ])('tells of %s what loading it tells', (_, board) => {
    expect(boardFaults(board)).toEqual(faultsIn(loadBoard(board)))
  })
})

describe('regions drawn by hand', () => {
  const box = (a: [number, number], b: [number, number]): [{ x: number; y: number }, { x: number; y: number }] => [
    { x: a[0], y: a[1] },
    { x: b[0], y: b[1] },
  ]
  const [channel] = small.memory.channels
  const [lane] = channel?.lanes ?? []
  const memory = channel?.part ?? ''
  const id = `${memory}.${lane?.name}`
  const at = part(small, memory)?.at ?? { x: 0, y: 0 }
  const drawn = after({
    kind: 'draw-region',
    ref: memory,
    region: 'own',
    corners: box([at.x - 1, at.y - 2], [at.x + 3, at.y + 1]),
    lanes: [id],
  })

  test('it lies where the box was, and the lane ends in it', () => {
    const region = sound(drawn).regionById.get(`${memory}/own`)
    expect(region).toMatchObject({ from: 'drawn', lanes: [id] })
    expect(region?.areaMm2).toBeCloseTo(12, 6)
    expect(region?.centre.x).toBeCloseTo(at.x + 1, 6)
    expect(region?.centre.y).toBeCloseTo(at.y - 0.5, 6)
  })

  test('it goes with its part, turned and turned over', () => {
    const moved = after({ kind: 'change-side', refs: [memory], to: 'bottom' }, drawn)
    expect(sound(moved).regionById.get(`${memory}/own`)?.areaMm2).toBeCloseTo(12, 3)
    const turned = after({ kind: 'rotate', refs: [memory], byDeg: 90, about: 'each' }, drawn)
    const centre = sound(turned).regionById.get(`${memory}/own`)?.centre
    expect(centre?.x).toBeCloseTo(at.x + 0.5, 3)
    expect(centre?.y).toBeCloseTo(at.y + 1, 3)
  })

  test('taken away, the lane ends where it did before', () => {
    const left = after({ kind: 'forget-region', ref: memory, region: 'own' }, drawn)
    expect(sound(left).laneById.get(id)?.memoryRegion).toBe(sound(small).laneById.get(id)?.memoryRegion)
  })

  test('a box without width, a lane of another part and a region that nobody drew are refused', () => {
    const wish = { kind: 'draw-region', ref: memory, region: 'own' } as const
    expect(why({ ...wish, corners: box([1, 1], [1.1, 9]), lanes: [] })[0]).toContain('a box without width')
    expect(why({ ...wish, corners: box([1, 1], [2, 9]), lanes: ['U9.A0'] })[0]).toContain(`does not end on ${memory}`)
    expect(why({ kind: 'forget-region', ref: memory, region: 'own' })[0]).toContain('no drawn region')
  })
})
