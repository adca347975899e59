/** Error load per region: what a report counted, brought onto the patches of the board that carry it. */
import type { BoardModel } from '../../board/index.ts'
import type { PartTally } from '../../report/index.ts'

export interface LoadView {
  /** Region id to load, 0 (excluded) to 1: the logarithm of its errors over that of the worst region. */
  readonly regions: ReadonlyMap<string, number>
  readonly failingLanes: ReadonlySet<string>
  readonly failingParts: ReadonlySet<string>
  /** Regions of which no lane was tested, and parts of which nothing is known. */
  readonly untested: ReadonlySet<string>
  readonly untestedParts: ReadonlySet<string>
}

/** Both ends of a failing lane get its errors; a lane that fails without a count weighs as one error. */
export function loadView(model: BoardModel, tallies: readonly PartTally[]): LoadView {
  const errors = new Map<string, number>()
  const failingLanes = new Set<string>()
  const failingParts = new Set<string>()
  const told = new Set<string>()
  const untold = new Set<string>()
  const untestedParts = new Set<string>()
  for (const tally of tallies) {
    const lanes = tally.channels.flatMap((channel) => channel.lanes)
    if (tally.errors === 0 && lanes.every((lane) => lane.state === 'untested')) untestedParts.add(tally.ref)
    for (const lane of lanes) {
      const region = model.laneById.get(lane.id)?.memoryRegion
      if (region !== undefined) (lane.state === 'untested' ? untold : told).add(region)
    }
    for (const lane of lanes) {
      if (lane.state !== 'fail') continue
      failingLanes.add(lane.id)
      failingParts.add(tally.ref)
      const known = model.laneById.get(lane.id)
      for (const region of [known?.memoryRegion, known?.coreRegion])
        if (region !== undefined) errors.set(region, (errors.get(region) ?? 0) + Math.max(1, lane.errors))
    }
  }
  const worst = Math.log1p(Math.max(1, ...errors.values()))
  const regions = new Map([...errors].map(([id, count]) => [id, Math.log1p(count) / worst] as const))
  const untested = new Set([...untold].filter((region) => !told.has(region)))
  return { regions, failingLanes, failingParts, untested, untestedParts }
}

const LOOSE_PX = 11
const DENSE_PX = 4.5

/** Distance between hatch lines in pixels: dense for a heavy load, loose for a light one. */
export const hatchSpacingPx = (load: number): number =>
  LOOSE_PX + (DENSE_PX - LOOSE_PX) * Math.min(1, Math.max(0, load))
