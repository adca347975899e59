/** An invented finding on a shipped board, made by hand: what the sheet's tests draw. No figure in it is a result. */
import { type Grid, gridOver, type Point } from '../../src/base/index.ts'
import { type BoardModel, loadBoard } from '../../src/board/index.ts'
import type { PartTally, SignatureKind } from '../../src/report/index.ts'
import type { Mark, ReachResult } from '../../src/spill/index.ts'
import { nothingJudged, type SuspectsResult } from '../../src/suspects/index.ts'

export function boardFrom(json: unknown): BoardModel {
  const loaded = loadBoard(json)
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.faults[0]))
  return loaded.value
}

/** One part's tally with the given errors per lane name; lanes that are not named pass. */
export function tallyOf(model: BoardModel, ref: string, errors: Readonly<Record<string, number>>): PartTally {
  const lanes = model.lanes.filter((lane) => lane.part === ref)
  const kind: SignatureKind = Object.keys(errors).length === lanes.length ? 'package' : 'byte'
  const channels = [...new Set(lanes.map((lane) => lane.channel))]
  return {
    ref,
    errors: Object.values(errors).reduce((sum, n) => sum + n, 0),
    signature: { kind, where: ref, numbers: [], stuck: undefined, sentence: '' },
    channels: channels.map((id) => ({
      id,
      lanes: lanes
        .filter((lane) => lane.channel === id)
        .map((lane) => ({
          id: lane.id,
          errors: errors[lane.name] ?? 0,
          bits: [],
          high: [],
          low: [],
          state: errors[lane.name] === undefined ? ('pass' as const) : ('fail' as const),
        })),
    })),
  }
}

/** A streak 12 mm down from a point, as if the board were bare. */
export function bareReach(model: BoardModel, at: Point, radiusMm: number, cellMm = 1): ReachResult {
  const grid = gridOver(model.box, cellMm)
  return {
    radiusMm,
    areaMm2: Math.PI * radiusMm ** 2,
    unplacedMl: 0,
    fields: [{ side: 'top', grid, effortMm: perCell(grid, (p) => toStreak(p, at)) }],
    parts: [],
    regions: [],
    corridors: [],
    extent: '',
    notes: [],
  }
}

const STREAK_MM = 12

const toStreak = (p: Point, at: Point): number =>
  Math.hypot(p.x - at.x, p.y - Math.min(at.y, Math.max(at.y - STREAK_MM, p.y)))

function perCell(grid: Grid, value: (at: Point) => number): Float32Array {
  const cells = new Float32Array(grid.columns * grid.rows)
  for (let row = 0; row < grid.rows; row++)
    for (let column = 0; column < grid.columns; column++)
      cells[row * grid.columns + column] = value({
        x: grid.originXMm + (column + 0.5) * grid.cellMm,
        y: grid.originYMm + (row + 0.5) * grid.cellMm,
      })
  return cells
}

export function suspectsAt(model: BoardModel, at: Point, lift: readonly string[]): SuspectsResult {
  const grid = gridOver(model.box, 1)
  return {
    ...nothingJudged,
    lift,
    spill: {
      at,
      sdMm: 5,
      side: 'top',
      grid,
      density: perCell(grid, (p) => Math.exp(-((p.x - at.x) ** 2 + (p.y - at.y + 3) ** 2) / 60)),
      probability: 0.9,
    },
  }
}

export const exampleMarks: readonly Mark[] = [
  {
    kind: 'spill',
    id: 'spill-1',
    side: 'top',
    at: { x: 147, y: 85 },
    sdMm: 4,
    substance: 'glycol-coolant',
    amount: { volumeMl: 0.4 },
    amountSdLog: 0.4,
    downDeg: -90,
    pressed: 'unknown',
    pushMm: 0,
    reachesOtherSide: false,
  },
  { kind: 'residue', id: 'residue-1', side: 'top', at: { x: 146, y: 78 }, radiusMm: 2.6 },
  { kind: 'clean', id: 'clean-1', side: 'top', at: { x: 170, y: 40 }, radiusMm: 3 },
]

export const otherMarks: readonly Mark[] = [
  { kind: 'film', id: 'film-1', side: 'top', at: { x: 100, y: 75 }, radiusMm: 5 },
  { kind: 'corrosion', id: 'corrosion-1', side: 'top', at: { x: 145, y: 38 }, radiusMm: 4 },
  { kind: 'slip', id: 'slip-1', side: 'top', at: { x: 172, y: 62 }, radiusMm: 4 },
  { kind: 'note', id: 'note-1', side: 'top', at: { x: 98, y: 45 }, text: 'thermal pad torn here' },
  {
    kind: 'dam',
    id: 'dam-1',
    side: 'top',
    path: [
      { x: 128, y: 84 },
      { x: 138, y: 84 },
      { x: 140, y: 74 },
    ],
  },
]
