/** From a pattern to the sizes and places of a card: core in the middle, packages about it, columns of stages beside. */
import { bad, type Fault, good, type Point, type Result, say } from '../../base/index.ts'
import { TAB_MM } from './card-shape.ts'
import { busLimits, outlineNamed, packageBits } from './memory-kinds.ts'
import { type BoardPattern, patternLimits } from './pattern.ts'
import { packageCount, type PackageCount, ringSize, type RingSize, wantedForm } from './places.ts'
import { isStack, leastCoreMm } from './stacks.ts'
import { COLUMN_MM, columnsOf, rowsThatFit, type StageColumn } from './stage-columns.ts'

/** From the left: display connectors 19.5, a controller 12.5. Common practice, no source, as are all of these. */
const LEFT_ZONE_MM = 32
const RIGHT_ZONE_MM = 16
const BESIDE_RING_MM = 5
const EDGE_MM = 5
/** The tab and the bracket need this much of every card. */
const LEAST_WIDTH_MM = 160
const LEAST_HEIGHT_MM = 69

export interface CardLayout {
  readonly widthMm: number
  readonly heightMm: number
  readonly core: { readonly at: Point; readonly sizeMm: number; readonly package: string | undefined }
  readonly ring: RingSize
  readonly packages: PackageCount
  readonly columns: readonly StageColumn[]
}

/** @returns the layout, or all that is wrong with the pattern, by the field that is wrong */
export function layoutOf(pattern: BoardPattern): Result<CardLayout> {
  const packages = packageCount(pattern)
  const faults = [...busFaults(pattern, packages), ...supplyFaults(pattern)]
  if (packages === undefined || faults.length > 0) return bad(...faults)
  const ring = ringThatFits(pattern, packages.front)
  const leastHeightMm = heightFor(ring)
  const heightMm = pattern.boardMm?.heightMm ?? leastHeightMm
  if (heightMm < leastHeightMm) return bad(tooSmall('heightMm', heightMm, leastHeightMm))
  const stages = pattern.supplies.reduce((sum, supply) => sum + supply.stages, 0)
  const rows = rowsThatFit(heightMm)
  const most = mostStages(ring, rows)
  if (stages > most) return bad(tooManyStages(stages, most))
  const sides = columnSides(columnCount(stages, rows))
  const leastWidthMm = widthFor(ring, sides)
  const widthMm = pattern.boardMm?.widthMm ?? leastWidthMm
  if (widthMm < leastWidthMm) return bad(tooSmall('widthMm', widthMm, leastWidthMm))
  const slackMm = widthMm - leftOf(ring, sides.left) - rightOf(ring, sides.right)
  const at = {
    x: toHalf(leftOf(ring, sides.left) + slackMm / 2),
    y: toHalf(TAB_MM + EDGE_MM + ring.reachMm.bottom + (heightMm - leastHeightMm) / 2),
  }
  const edges = { right: at.x + ring.reachMm.right + BESIDE_RING_MM, left: at.x - ring.reachMm.left - BESIDE_RING_MM }
  return good({
    widthMm,
    heightMm,
    core: { at, sizeMm: ring.coreMm, package: ring.corePackage },
    ring,
    packages,
    columns: columnsOf(stages, sides, edges, heightMm),
  })
}

/** On all four sides where that is wanted and the card is high enough, else the side of the slot stays free. */
function ringThatFits(pattern: BoardPattern, fronts: number): RingSize {
  const wanted = ringSize(pattern, fronts, wantedForm(fronts))
  const heightMm = pattern.boardMm?.heightMm ?? Infinity
  const tight = heightMm < heightFor(wanted)
  return tight ? ringSize(pattern, fronts, 'three-sides') : wanted
}

const heightFor = ({ reachMm }: RingSize): number =>
  Math.max(LEAST_HEIGHT_MM, Math.ceil(TAB_MM + EDGE_MM + reachMm.bottom + reachMm.top + EDGE_MM))

const leftOf = ({ reachMm }: RingSize, columns: number): number =>
  LEFT_ZONE_MM + columns * COLUMN_MM + BESIDE_RING_MM + reachMm.left

const rightOf = ({ reachMm }: RingSize, columns: number): number =>
  reachMm.right + BESIDE_RING_MM + columns * COLUMN_MM + RIGHT_ZONE_MM

const toHalf = (mm: number): number => Math.round(mm * 2) / 2

interface Sides {
  readonly left: number
  readonly right: number
}

const widthFor = (ring: RingSize, { left, right }: Sides): number =>
  Math.max(LEAST_WIDTH_MM, Math.ceil(leftOf(ring, left) + rightOf(ring, right)))

/** At least one column on each side where there are stages for it; what is over begins on the right. */
const columnCount = (stages: number, rows: number): number => Math.max(Math.min(2, stages), Math.ceil(stages / rows))

const columnSides = (columns: number): Sides => ({ right: Math.ceil(columns / 2), left: Math.floor(columns / 2) })

/** Stages beside this ring on the widest card that there may be. */
function mostStages(ring: RingSize, rows: number): number {
  let columns = 0
  while (widthFor(ring, columnSides(columns + 1)) <= patternLimits.widthMm.max) columns++
  return columns * rows
}

/** Rails that every card of this form has, from slot and plug. */
const INPUT_RAILS: readonly string[] = ['12V', '3V3']

const isInput = (name: string): boolean => INPUT_RAILS.includes(name)

function supplyFaults({ supplies }: BoardPattern): Fault[] {
  const taken = new Set<string>(INPUT_RAILS)
  const faults: Fault[] = []
  for (const [i, { name }] of supplies.entries()) {
    if (taken.has(name))
      faults.push({
        path: `$.supplies[${i}].name`,
        found: say('{name} for the second time', { name }),
        expected: say('a name that no other supply has'),
        ...(isInput(name)
          ? { todo: say('{inputRails} are there by themselves.', { inputRails: INPUT_RAILS.join(' and ') }) }
          : {}),
      })
    taken.add(name)
  }
  return faults
}

function busFaults(
  { busBits, package: name, sides, coreMm }: BoardPattern,
  packages: PackageCount | undefined,
): Fault[] {
  const bits = packageBits(outlineNamed(name))
  const { min, max } = busLimits(name)
  const path = '$.busBits'
  if (packages === undefined)
    return [
      { path, found: `${busBits} bit`, expected: say('a multiple of {bits} bit, which one package has', { bits }) },
    ]
  if (busBits < min || busBits > max)
    return [{ path, found: `${busBits} bit`, expected: say('{min} to {max} bit with these packages', { min, max }) }]
  return isStack(name) ? stackFaults(name, packages.front, sides, coreMm) : []
}

function stackFaults(
  name: BoardPattern['package'],
  count: number,
  sides: BoardPattern['sides'],
  coreMm: number | undefined,
): Fault[] {
  const leastMm = leastCoreMm(name, count)
  return [
    ...(sides === 'both'
      ? [
          {
            path: '$.sides',
            found: say('both sides'),
            expected: say('one side: stacks stand beside the die of the core'),
          },
        ]
      : []),
    ...(coreMm !== undefined && coreMm < leastMm
      ? [
          {
            path: '$.coreMm',
            found: `${coreMm} mm`,
            expected: say('at least {leastMm} mm for die and stacks', { leastMm }),
          },
        ]
      : []),
  ]
}

const tooManyStages = (found: number, most: number): Fault => ({
  path: '$.supplies',
  found: say('{found} stages', { found }),
  expected: say('at most {most} stages beside this core on a board {max} mm wide', {
    most,
    max: patternLimits.widthMm.max,
  }),
})

const tooSmall = (side: 'widthMm' | 'heightMm', foundMm: number, leastMm: number): Fault => ({
  path: `$.boardMm.${side}`,
  found: `${foundMm} mm`,
  expected: say('at least {leastMm} mm for this core, its packages and stages', { leastMm }),
})
