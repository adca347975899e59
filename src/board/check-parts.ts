/** Faults of the parts of a board: refs, packages, bodies, drawn regions. */
import {
  decimals,
  type Fault,
  firstSelfCrossing,
  jsonPath,
  type Point,
  say,
  showValue,
  signedArea,
} from '../base/index.ts'
import type { BoardDraft, Placed } from './draft.ts'
import type { PackageOutline } from './package-outline.ts'
import type { Part } from './schema.ts'

/** How far a drawn region may reach beyond its part's body before it must be a slip. */
const REGION_BEYOND_BODY_MM = 5

/**
 * Repeated refs, a core that is missing or stands twice, and for each part its package, body and drawn regions.
 * `outlines` are by package name.
 */
export function checkParts(draft: BoardDraft, outlines: ReadonlyMap<string, PackageOutline>): Fault[] {
  return [
    ...repeated(
      draft.parts,
      (part) => part.ref,
      (index) => ['parts', index, 'ref'],
      say('a ref that no other part has'),
    ),
    ...checkOneCore(draft.parts),
    ...draft.parts.flatMap(({ index, value }) => checkRef(index, value.ref)),
    ...draft.parts.flatMap(({ index, value }) => [
      ...checkBody(index, value, outlines),
      ...checkRegions(index, value, outlines),
    ]),
  ]
}

/** One fault for each entry whose key an earlier entry has. */
export function repeated<T>(
  entries: readonly Placed<T>[],
  keyOf: (value: T) => string,
  stepsOf: (index: number) => PropertyKey[],
  expected: string,
): Fault[] {
  const firstIndex = new Map<string, number>()
  const faults: Fault[] = []
  for (const { index, value } of entries) {
    const key = keyOf(value)
    const first = firstIndex.get(key)
    if (first === undefined) firstIndex.set(key, index)
    else
      faults.push({
        path: jsonPath(stepsOf(index)),
        found: showValue(key),
        expected,
        todo: say('It stands at {first} already; rename one.', { first: jsonPath(stepsOf(first)) }),
      })
  }
  return faults
}

/** A region's id is ref, slash, name: a slash in the ref would make two readings of one id. */
const checkRef = (index: number, ref: string): Fault[] =>
  ref.includes('/')
    ? [{ path: jsonPath(['parts', index, 'ref']), found: showValue(ref), expected: say('a ref without a slash') }]
    : []

function checkOneCore(parts: readonly Placed<Part>[]): Fault[] {
  const cores = parts.filter(({ value }) => value.kind === 'core')
  return cores.slice(1).map(({ index, value }) => ({
    path: jsonPath(['parts', index, 'kind']),
    found: say('a second core ({second} beside {first})', { second: value.ref, first: cores[0]?.value.ref }),
    expected: say('at most one core on a board'),
    todo: say('Give the other one another kind.'),
  }))
}

function checkBody(index: number, part: Part, outlines: ReadonlyMap<string, PackageOutline>): Fault[] {
  if (part.package !== undefined && !outlines.has(part.package)) {
    return [
      {
        path: jsonPath(['parts', index, 'package']),
        found: showValue(part.package),
        expected: say('the name of a package outline: {names}', { names: [...outlines.keys()].join(', ') }),
      },
    ]
  }
  if (part.package !== undefined || part.body !== undefined) return []
  return [
    {
      path: jsonPath(['parts', index]),
      found: say('part {ref} with neither body nor package', { ref: part.ref }),
      expected: say('a body, or a package that gives one'),
    },
  ]
}

function checkRegions(index: number, part: Part, outlines: ReadonlyMap<string, PackageOutline>): Fault[] {
  const regions = (part.regions ?? []).map((value, i) => ({ index: i, value }))
  const body = part.body ?? outlines.get(part.package ?? '')?.body
  const faults = repeated(
    regions,
    (region) => region.name,
    (i) => ['parts', index, 'regions', i, 'name'],
    say('a region name that the part has once'),
  )
  for (const { index: i, value } of regions) {
    const path = jsonPath(['parts', index, 'regions', i, 'polygon'])
    faults.push(...checkPolygon(path, value.polygon))
    const beyond = body === undefined ? 0 : farthestBeyond(value.polygon, body)
    if (beyond > REGION_BEYOND_BODY_MM)
      faults.push({
        path,
        found: say('a region that reaches {beyond} mm beyond the body', { beyond: decimals(beyond, 1) }),
        expected: say('a polygon in the part’s own drawing, about its centre, within its body'),
      })
  }
  return faults
}

function farthestBeyond(polygon: readonly Point[], body: NonNullable<Part['body']>): number {
  const middle = body.centre ?? { x: 0, y: 0 }
  let farthest = 0
  for (const { x, y } of polygon) {
    const beyondX = Math.abs(x - middle.x) - body.widthMm / 2
    const beyondY = Math.abs(y - middle.y) - body.lengthMm / 2
    farthest = Math.max(farthest, beyondX, beyondY)
  }
  return farthest
}

const LEAST_AREA_MM2 = 1e-6

/** Faults of a polygon as such: edges that cross or touch, no area. */
export function checkPolygon(path: string, polygon: readonly Point[]): Fault[] {
  if (Math.abs(signedArea(polygon)) < LEAST_AREA_MM2 && firstSelfCrossing(polygon) === undefined)
    return [{ path, found: say('a polygon without area'), expected: say('corners that enclose an area') }]
  const crossing = firstSelfCrossing(polygon)
  if (crossing === undefined) return []
  return [
    {
      path,
      found: say('a polygon whose edges {one} and {other} cross or touch', {
        one: crossing[0],
        other: crossing[1],
      }),
      expected: say('a simple polygon, whose edges meet only at their ends'),
      todo: say('Look at corners {one} and {other}, counted from 0.', {
        one: crossing[0],
        other: crossing[1],
      }),
    },
  ]
}
