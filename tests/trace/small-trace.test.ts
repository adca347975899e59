/** What is made of a few traced parts, each place and each supply worked out by hand. */
import { describe, expect, test } from 'vitest'
import type { Point } from '../../src/base/index.ts'
import {
  arrayBetween,
  boardFromTrace,
  patternPackageNamed,
  refsOf,
  type Trace,
  type TracedPart,
  traceUntold,
  turnedAsUsual,
  turnedOver,
} from '../../src/trace/index.ts'

const BODIES: Partial<Record<TracedPart['kind'], TracedPart['body']>> = {
  core: { widthMm: 31, lengthMm: 33, heightMm: 2.2 },
  memory: { widthMm: 12, lengthMm: 14, heightMm: 1.1 },
  inductor: { widthMm: 7, lengthMm: 7, heightMm: 5 },
  capacitor: { widthMm: 2, lengthMm: 1.3, heightMm: 1 },
}
const SMALL = { widthMm: 5, lengthMm: 6, heightMm: 1 }

const part = (
  id: string,
  kind: TracedPart['kind'],
  x: number,
  y: number,
  more: Partial<TracedPart> = {},
): TracedPart => ({
  id,
  kind,
  side: 'top',
  at: { x, y },
  rotationDeg: 0,
  body: BODIES[kind] ?? SMALL,
  ...(kind === 'memory' ? { package: '180-ball' as const } : {}),
  ...more,
})

/** Core at (100, 60); its board begins at (−20, 10). */
const parts: readonly TracedPart[] = [
  part('core', 'core', 100, 60),
  part('right', 'memory', 130, 60, { rotationDeg: -90 }),
  part('left', 'memory', 70, 62, { rotationDeg: 450 }),
  part('above', 'memory', 100, 92, { rotationDeg: 180.004 }),
  // behind the one above, 2 mm off, and one on the bottom alone
  part('behind', 'memory', 102, 92, { side: 'bottom' }),
  part('alone', 'memory', 60, 30, { side: 'bottom' }),
  part('s-left', 'power-stage', 30, 60),
  part('s-far', 'power-stage', 30, 90),
  part('s-right', 'power-stage', 170, 60),
  part('l-left', 'inductor', 22, 60),
  part('l-far', 'inductor', 22, 90),
  part('l-right', 'inductor', 178, 60),
  part('c-near', 'capacitor', 22, 79.5),
  part('c-20', 'capacitor', 178, 40),
  part('c-beyond', 'capacitor', 178, 39.9),
  part('driver', 'controller', 150, 90),
]

const trace: Trace = {
  name: 'small',
  outline: [
    { x: -20, y: 10 },
    { x: 220, y: 10 },
    { x: 220, y: 120 },
    { x: -20, y: 120 },
  ],
  parts,
  supplies: [
    { name: 'VCORE', nominalV: 0.9, stages: 2, feeds: 'core' },
    { name: 'VMEM', nominalV: 1.35, stages: 1, feeds: 'memory' },
  ],
}

function boardOf(changed: Partial<Trace> = {}) {
  const made = boardFromTrace({ ...trace, ...changed })
  if (!made.ok) throw new Error(JSON.stringify(made.faults))
  return made.value
}

describe('refs', () => {
  test('each kind is counted clockwise about the core from the upper left, memory behind from U31', () => {
    // clockwise from the upper left: above 45°, right 135°, left 319°; alone at the lower left 278°
    expect(Object.fromEntries(refsOf(parts))).toEqual({
      core: 'U1',
      above: 'U11',
      right: 'U12',
      left: 'U13',
      behind: 'U31',
      alone: 'U32',
      's-right': 'S1',
      's-left': 'S2',
      's-far': 'S3',
      'l-right': 'L1',
      'l-left': 'L2',
      'l-far': 'L3',
      'c-20': 'C1',
      'c-beyond': 'C2',
      'c-near': 'C3',
      driver: 'U2',
    })
  })

  test('a first one that was chosen turns the count of all kinds', () => {
    const refs = refsOf(parts, { firstId: 'right' })
    expect(['right', 'left', 'above', 's-right', 's-left'].map((id) => refs.get(id))).toEqual([
      'U11',
      'U12',
      'U13',
      'S1',
      'S2',
    ])
  })

  test('where there are too many, numbers go on above 100', () => {
    const ring = (kind: TracedPart['kind'], count: number, side: TracedPart['side'] = 'top') =>
      Array.from({ length: count }, (_, i) => {
        // clockwise from just after the upper left
        const angle = 0.75 * Math.PI - (2 * Math.PI * (i + 0.5)) / count
        return part(`${kind}${side}${i}`, kind, 100 + 50 * Math.cos(angle), 60 + 50 * Math.sin(angle), { side })
      })
    const refs = [...refsOf([...ring('memory', 22), ...ring('controller', 11)]).values()]
    expect(refs.filter((ref) => Number(ref.slice(1)) > 100)).toEqual(['U111', 'U131', 'U112', 'U132'])
    expect(refs).toContain('U30')
    expect(refs).toContain('U10')
    expect(refs).not.toContain('U31')
    const behind = [...refsOf(ring('memory', 25, 'bottom')).values()]
    expect([behind[0], behind.at(-1)]).toEqual(['U31', 'U55'])
  })

  test('with no core they run about the middle of all parts', () => {
    const three = [part('a', 'memory', 0, 30), part('b', 'memory', 30, 0), part('c', 'memory', 0, -30)]
    expect(Object.fromEntries(refsOf(three))).toEqual({ a: 'U11', b: 'U12', c: 'U13' })
    expect([...refsOf([])]).toEqual([])
  })
})

describe('the board', () => {
  test('has its lower left corner at (0, 0), places to a hundredth and turns from 0 to below 360', () => {
    const board = boardOf({ parts: parts.map((each) => ({ ...each, at: { x: each.at.x + 0.004, y: each.at.y } })) })
    const placed = (ref: string) => {
      const found = board.description.parts.find((each) => each.ref === ref)
      return [found?.at.x, found?.at.y, found?.rotationDeg]
    }
    expect(placed('U1')).toEqual([120, 50, 0])
    expect(placed('U12')).toEqual([150, 50, 270])
    expect(placed('U13')).toEqual([90, 52, 90])
    expect(placed('U11')).toEqual([120, 82, 180])
    expect(board.description.outline).toEqual([
      { x: 0, y: 0 },
      { x: 240, y: 0 },
      { x: 240, y: 110 },
      { x: 0, y: 110 },
    ])
  })

  test('stages go to the supplies in the order of their refs, coils with the nearest stage, capacitors with the nearest coil', () => {
    const rail = (name: string) => boardOf().description.rails.find((each) => each.name === name)
    expect(rail('VCORE')).toMatchObject({ stages: ['S1', 'S2'], feeds: ['U1', 'C1'] })
    expect(rail('VCORE')?.points.map((point) => point.part)).toEqual(['L1', 'L2'])
    expect(rail('VMEM')).toMatchObject({ stages: ['S3'], feeds: ['U11', 'U12', 'U13', 'U31', 'U32', 'C3'] })
    expect(rail('VMEM')?.points.map((point) => point.part)).toEqual(['L3'])
    // 20.1 mm from the nearest coil it belongs to the input
    expect(rail('12V')?.feeds).toEqual(['S1', 'S2', 'S3', 'U2', 'C2'])
    expect(rail('3V3')?.feeds).toEqual(['U2'])
  })

  test('stages alone stand off the board; a body of no known core is kept as it was traced', () => {
    const found = (ref: string) => boardOf().description.parts.find((each) => each.ref === ref)
    expect(found('S1')).toMatchObject({ standoffMm: 0.05, body: SMALL })
    expect(found('L1')).not.toHaveProperty('standoffMm')
    expect(found('U1')).toMatchObject({ body: BODIES.core })
    expect(found('U1')).not.toHaveProperty('package')
  })

  test.each([
    [40.29, 'core-40'],
    [39.71, 'core-40'],
    [40.31, undefined],
    [39.69, undefined],
  ])('a core of 40 × %d mm is %s', (lengthMm, name) => {
    const core = part('core', 'core', 100, 60, { body: { widthMm: 40, lengthMm, heightMm: 2.4 } })
    const board = boardOf({ parts: parts.map((each) => (each.kind === 'core' ? core : each)) })
    expect(board.description.parts.find(({ ref }) => ref === 'U1')?.package).toBe(name)
  })

  test('a package and the one behind it share a channel’s lanes; one alone on the bottom has its own', () => {
    const board = boardOf()
    // eight packages of 32 bits make 256; a pair in clamshell shares 32 of them
    const bitsOf = (ref: string) =>
      board.lanes.filter((lane) => lane.part === ref).reduce((sum, lane) => sum + lane.bitCount, 0)
    expect(['U11', 'U31', 'U12', 'U32'].map(bitsOf)).toEqual([16, 16, 32, 32])
  })

  test('says what was traced, and what no photo tells', () => {
    expect(boardOf().description.note).toBe(
      `Traced from a photo: 16 parts. What a photo does not tell: ${traceUntold.join(' ')}`,
    )
    expect(traceUntold.join(' ')).toMatch(/order of the refs.*towards the core.*data bit.*learnt.*comparison only\.$/)
  })

  test('without memory there are no channels', () => {
    const board = boardOf({ parts: parts.filter(({ kind }) => kind !== 'memory') })
    expect(board.memories).toEqual([])
    expect(board.description.note).toContain('11 parts')
  })
})

describe('what is refused', () => {
  const faultsOf = (changed: Partial<Trace>) => {
    const made = boardFromTrace({ ...trace, ...changed })
    return made.ok ? [] : made.faults
  }

  test('two cores', () => {
    expect(faultsOf({ parts: [...parts, part('other', 'core', 180, 100)] })).toEqual([
      { path: 'parts', found: '2 cores', expected: 'one core' },
    ])
  })

  test('memory of two kinds', () => {
    const mixed = parts.map((each) => (each.id === 'left' ? { ...each, package: '170-ball' as const } : each))
    expect(faultsOf({ parts: mixed })).toEqual([
      { path: 'parts', found: '2 kinds of memory package', expected: 'memories of one kind' },
    ])
  })

  test('supplies with more stages than were traced', () => {
    expect(faultsOf({ supplies: [{ name: 'VCORE', nominalV: 0.9, stages: 4, feeds: 'core' }] })).toEqual([
      {
        path: 'supplies',
        found: '4 stages in the supplies',
        expected: '3, as many as were traced',
        todo: 'Change the supplies, or trace the stages that are missing.',
      },
    ])
    expect(faultsOf({ supplies: [{ name: 'VCORE', nominalV: 0.9, stages: 1, feeds: 'core' }] })[0]?.found).toBe(
      '1 stage in the supplies',
    )
  })

  test('what the board’s own check refuses: an outline of two corners', () => {
    expect(faultsOf({ outline: trace.outline.slice(0, 2) })[0]?.path).toBe('$.outline')
  })
})

test('packages of the pattern go by their name', () => {
  expect(patternPackageNamed('180-ball')).toBe('180-ball')
  expect(patternPackageNamed('core-40')).toBeUndefined()
  expect(patternPackageNamed(undefined)).toBeUndefined()
})

describe('half turns', () => {
  const core = { x: 0, y: 0 }
  // a package’s last row lies at its −y end: unturned it points to the core from above it, turned by 90° from the left of it
  test.each([
    [{ x: 0, y: 30 }, 0],
    [{ x: 0, y: -30 }, 180],
    [{ x: -30, y: 0 }, 90],
    [{ x: 30, y: 0 }, 270],
  ] as const)('a 180-ball package at %o has one way that is usual', (at: Point, usual) => {
    const ways = [0, 180].map((more) => turnedAsUsual('180-ball', at, usual + more, core))
    expect(ways[0]).toBe(ways[1])
    expect([0, 180].map((more) => (usual + more) % 360)).toContain(ways[0])
    // kinds whose lanes all lie at the end of row A stand the other way round
    expect(Math.abs(turnedAsUsual('96-ball-ddr4', at, usual, core) - turnedAsUsual('180-ball', at, usual, core))).toBe(
      180,
    )
  })
})

test('a row of one or two is its ends', () => {
  const ends = [
    { x: 0, y: 4 },
    { x: 9, y: 1 },
  ]
  expect(arrayBetween({ x: 0, y: 4 }, { x: 9, y: 1 }, 2)).toEqual(ends)
  expect(arrayBetween({ x: 0, y: 4 }, { x: 9, y: 1 }, 1)).toEqual(ends)
  expect(arrayBetween({ x: 0, y: 4 }, { x: 9, y: 1 }, 2.6)).toHaveLength(3)
})

test('holes a millimetre apart tell no view of the bottom, further apart they do', () => {
  const one = { x: 10, y: 10 }
  const bottom = { one: { x: 0, y: 0 }, other: { x: 0, y: 50 } }
  expect(turnedOver({ one, other: { x: 11, y: 10 } }, bottom)).toBeUndefined()
  expect(turnedOver({ one, other: { x: 11.01, y: 10 } }, bottom)).toBeDefined()
})
