/** How many packages stand on each side of the core, and how far the ring reaches. Sizes in mm. */
import { packageOutlines } from '../packages.ts'
import { memoryKinds, outlineNamed, packageBits } from './memory-kinds.ts'
import type { CoreEdge } from './memory-ring.ts'
import type { BoardPattern } from './pattern.ts'
import { isStack, usualStackCoreMm } from './stacks.ts'

/** Common practice, no source: room for the lanes, and between neighbours. */
const LEAST_GAP_MM = 10
const BETWEEN_PACKAGES_MM = 2.5
/** What packages of two sides of the core keep from each other where the rows meet in a corner. */
const CORNER_MM = 1.5
/** On a side of the core without packages. */
const BARE_SIDE_MM = 8
/** A row is drawn apart to the core's width, but not by more than this share of a package. */
const LOOSEST = 1.7
/** From here on packages stand on all four sides. Common practice, no source. */
const FEWEST_FOR_RING = 8

type RingForm = 'ring' | 'three-sides'

export interface RingSize {
  readonly coreMm: number
  /** A core of the repository that has this size. */
  readonly corePackage: string | undefined
  readonly gapMm: number
  readonly offsetsMm: Readonly<Record<CoreEdge, readonly number[]>>
  /** From the core's middle to the outer end of what stands on each side. */
  readonly reachMm: Readonly<Record<CoreEdge, number>>
}

/** Packages on the front, and whether those behind are pairs of the same lanes or more of their own. */
export interface PackageCount {
  readonly front: number
  readonly back: number
}

/** Undefined where no whole number of packages makes the bus. */
export function packageCount({ package: name, busBits, sides }: BoardPattern): PackageCount | undefined {
  const bits = packageBits(outlineNamed(name))
  if (busBits % bits !== 0) return undefined
  const count = busBits / bits
  if (sides === 'one' || isStack(name)) return { front: count, back: 0 }
  if (memoryKinds[name].halves !== undefined) return { front: count, back: count }
  return { front: Math.ceil(count / 2), back: Math.floor(count / 2) }
}

/** Square cores of the repository by size, smallest first. */
export function coreSizes(): { readonly name: string; readonly sizeMm: number }[] {
  return [...packageOutlines.values()]
    .filter(({ kind, body }) => kind === 'core' && body.widthMm === body.lengthMm)
    .map(({ name, body }) => ({ name, sizeMm: body.widthMm }))
    .toSorted((a, b) => a.sizeMm - b.sizeMm)
}

/**
 * The smallest core for up to 192 bits, the next for up to 320, else the largest: as on cards that are about. No source.
 * With stacks on it, the next size that holds them.
 */
export function usualCoreMm({ package: name, busBits }: Pick<BoardPattern, 'package' | 'busBits'>): number {
  if (isStack(name)) return usualStackCoreMm(name, Math.ceil(busBits / packageBits(outlineNamed(name))))
  const sizes = coreSizes()
  const step = busBits <= 192 ? 0 : busBits <= 320 ? 1 : 2
  return sizes[Math.min(step, sizes.length - 1)]?.sizeMm ?? 40
}

/** A ring about the core where there are enough packages on the front, else three sides of it. */
export const wantedForm = (fronts: number): RingForm => (fronts >= FEWEST_FOR_RING ? 'ring' : 'three-sides')

/** @param fronts packages on the front */
export function ringSize(pattern: BoardPattern, fronts: number, form: RingForm): RingSize {
  const coreMm = pattern.coreMm ?? usualCoreMm(pattern)
  const { widthMm, lengthMm } = outlineNamed(pattern.package).body
  const counts = shared(isStack(pattern.package) ? 0 : fronts, form)
  const offsetsMm = eachEdge((edge) => rowOffsets(counts[edge], widthMm, coreMm))
  const longestMm = Math.max(
    ...Object.values(offsetsMm).map((offsets) => (offsets.length === 0 ? 0 : (offsets.at(-1) ?? 0) + widthMm / 2)),
  )
  const gapMm = Math.max(LEAST_GAP_MM, longestMm + CORNER_MM - coreMm / 2)
  return {
    coreMm,
    corePackage: coreSizes().find(({ sizeMm }) => sizeMm === coreMm)?.name,
    gapMm,
    offsetsMm,
    reachMm: eachEdge((edge) => coreMm / 2 + (counts[edge] > 0 ? gapMm + lengthMm : BARE_SIDE_MM)),
  }
}

const FILL: Readonly<Record<RingForm, readonly CoreEdge[]>> = {
  ring: ['top', 'right', 'left', 'bottom'],
  'three-sides': ['top', 'right', 'left'],
}

/** As evenly as can be, what is over on the sides that come first. */
function shared(fronts: number, form: RingForm): Readonly<Record<CoreEdge, number>> {
  const edges = FILL[form]
  return eachEdge((edge) => {
    const place = edges.indexOf(edge)
    return place < 0 ? 0 : Math.floor((fronts + edges.length - 1 - place) / edges.length)
  })
}

function rowOffsets(count: number, widthMm: number, coreMm: number): number[] {
  const pitchMm = Math.max(widthMm + BETWEEN_PACKAGES_MM, Math.min(coreMm / Math.max(1, count), widthMm * LOOSEST))
  return Array.from({ length: count }, (_, i) => (i - (count - 1) / 2) * pitchMm)
}

const eachEdge = <T>(of: (edge: CoreEdge) => T): Readonly<Record<CoreEdge, T>> => ({
  top: of('top'),
  right: of('right'),
  bottom: of('bottom'),
  left: of('left'),
})
