/** Which copper a rail has: what the board draws, or one plane assumed under its parts. */
import { type Point, rectangleAround, say } from '../../base/index.ts'
import { type BoardModel, hullOf, type PlacedPart, type Rail } from '../../board/index.ts'
import { sheetMilliohmOf, shortAssumptions } from './assumptions.ts'
import type { CopperFrom } from './result.ts'

export interface CopperPiece {
  readonly polygon: readonly Point[]
  /** Conductance of one square, per milliohm. */
  readonly perMilliohm: number
}

export interface RailCopper {
  readonly from: CopperFrom
  readonly pieces: readonly CopperPiece[]
  /** In a sentence, for whoever reads the result. */
  readonly said: string
}

/** @returns undefined where nothing of the rail stands on the board */
export function copperOf(model: BoardModel, rail: Rail): RailCopper | undefined {
  const drawn = rail.copper ?? []
  return drawn.length > 0 ? drawnCopper(model, drawn) : assumedCopper(model, rail)
}

function drawnCopper(model: BoardModel, drawn: NonNullable<Rail['copper']>): RailCopper {
  const thickness = new Map(model.description.copper.map((layer) => [layer.name, layer.thicknessUm]))
  const pieces = drawn.map(({ layer, polygon, thicknessUm }) => {
    const um = thicknessUm ?? thickness.get(layer) ?? shortAssumptions.planeThicknessUm
    return { polygon, perMilliohm: 1 / sheetMilliohmOf(um) }
  })
  const layers = [...new Set(drawn.map(({ layer }) => layer))].join(', ')
  const stacked = drawn.length > 1 ? say(' Pieces that overlap count as one sheet, joined by vias everywhere.') : ''
  return { from: 'drawn', pieces, said: say('Copper as the board draws it ({layers}).{stacked}', { layers, stacked }) }
}

function assumedCopper(model: BoardModel, rail: Rail): RailCopper | undefined {
  const parts = partsOfRail(model, rail)
  const points = [...parts.flatMap(({ outline }) => outline), ...rail.points.map(({ at }) => at)]
  if (points.length === 0) return undefined
  const margin = rectangleAround(2 * shortAssumptions.assumedMarginMm, 2 * shortAssumptions.assumedMarginMm)
  const hull = hullOf(points.flatMap(({ x, y }) => margin.map((corner) => ({ x: x + corner.x, y: y + corner.y }))))
  const um = shortAssumptions.planeThicknessUm
  return {
    from: 'assumed',
    pieces: [{ polygon: hull, perMilliohm: 1 / sheetMilliohmOf(um) }],
    said: say(
      'Assumed copper: the board does not draw this rail’s, so one plane of {um} µm under and between all its parts is taken. The place is only as good as that.',
      { um },
    ),
  }
}

/** Parts that hang on a rail: fed, making it, or where a probe reaches it. */
export function partsOfRail(model: BoardModel, rail: Rail): PlacedPart[] {
  const refs = new Set([
    ...rail.feeds,
    ...rail.stages,
    ...rail.points.flatMap(({ part }) => (part === undefined ? [] : [part])),
  ])
  return [...refs].flatMap((ref) => model.partByRef.get(ref) ?? [])
}
