/** Chains loose strokes into closed loops: ends within a tolerance of each other are one corner. */
import { distance, type Point } from '../../base/index.ts'

export interface Chained {
  readonly loops: readonly (readonly Point[])[]
  /** Runs that don't come back to where they began. */
  readonly open: readonly (readonly Point[])[]
  /** Widest gap between two ends that were taken for one corner. */
  readonly widestGapMm: number
}

interface Run {
  readonly points: readonly Point[]
  readonly from: number
  readonly to: number
}

/** Strokes of no length and straight lines drawn twice are dropped. */
export function chainStrokes(strokes: readonly (readonly Point[])[], toleranceMm: number): Chained {
  const corners = new Corners(toleranceMm)
  const runs = distinctRuns(strokes, corners)
  const runsAt = new Map<number, number[]>()
  for (const [index, run] of runs.entries())
    for (const corner of [run.from, run.to]) runsAt.set(corner, [...(runsAt.get(corner) ?? []), index])
  const used = new Set<number>()
  const loops: Point[][] = []
  const open: Point[][] = []
  const starts = [...runs.keys()].toSorted((a, b) => looseEnds(runs[b], runsAt) - looseEnds(runs[a], runsAt))
  for (const start of starts) {
    if (used.has(start)) continue
    const walked = walk(start, runs, runsAt, used)
    if (walked.closed) loops.push(walked.points.slice(0, -1))
    else open.push(walked.points)
  }
  return { loops, open, widestGapMm: corners.widestGapMm }
}

/** How many ends of a run meet nothing: a walk that starts at a loose end takes in the whole open run. */
function looseEnds(run: Run | undefined, runsAt: ReadonlyMap<number, readonly number[]>): number {
  if (run === undefined) return 0
  return [run.from, run.to].filter((corner) => (runsAt.get(corner)?.length ?? 0) === 1).length
}

function distinctRuns(strokes: readonly (readonly Point[])[], corners: Corners): Run[] {
  const straight = new Set<string>()
  const runs: Run[] = []
  for (const points of strokes) {
    const first = points[0]
    const last = points.at(-1)
    if (!first || !last) continue
    const from = corners.at(first)
    const to = corners.at(last)
    if (points.length === 2) {
      const key = `${Math.min(from, to)} ${Math.max(from, to)}`
      if (from === to || straight.has(key)) continue
      straight.add(key)
    }
    runs.push({ points, from, to })
  }
  return runs
}

function walk(
  start: number,
  runs: readonly Run[],
  runsAt: ReadonlyMap<number, readonly number[]>,
  used: Set<number>,
): { points: Point[]; closed: boolean } {
  const first = runs[start]
  if (first === undefined) return { points: [], closed: false }
  const startsLoose = (runsAt.get(first.from)?.length ?? 0) === 1
  const reversed = !startsLoose && (runsAt.get(first.to)?.length ?? 0) === 1
  const begin = reversed ? first.to : first.from
  let corner = reversed ? first.from : first.to
  const points = reversed ? first.points.toReversed() : [...first.points]
  used.add(start)
  while (corner !== begin) {
    const next = (runsAt.get(corner) ?? []).find((index) => !used.has(index))
    const run = next === undefined ? undefined : runs[next]
    if (next === undefined || run === undefined) return { points, closed: false }
    used.add(next)
    const forward = run.from === corner
    const onward = forward ? run.points : run.points.toReversed()
    for (const point of onward.slice(1)) points.push(point)
    corner = forward ? run.to : run.from
  }
  return { points, closed: true }
}

/** Numbers corners; points within the tolerance of a known corner get its number. */
class Corners {
  widestGapMm = 0
  private readonly toleranceMm: number
  private readonly cells = new Map<string, { point: Point; number: number }[]>()
  private count = 0

  constructor(toleranceMm: number) {
    this.toleranceMm = toleranceMm
  }

  at(point: Point): number {
    const column = Math.floor(point.x / this.toleranceMm)
    const row = Math.floor(point.y / this.toleranceMm)
    for (let dx = -1; dx <= 1; dx++)
      for (let dy = -1; dy <= 1; dy++)
        for (const known of this.cells.get(`${column + dx} ${row + dy}`) ?? []) {
          const gap = distance(known.point, point)
          if (gap > this.toleranceMm) continue
          this.widestGapMm = Math.max(this.widestGapMm, gap)
          return known.number
        }
    const entry = { point, number: this.count++ }
    const key = `${column} ${row}`
    this.cells.set(key, [...(this.cells.get(key) ?? []), entry])
    return entry.number
  }
}
