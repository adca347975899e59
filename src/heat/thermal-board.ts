/**
 * The board as a network of heat: cells of the sheet, and bodies that stand on it through their joints. A body is one
 * node per cell that it covers; heat goes sideways through it in parallel with the board, so its k·d is added below it.
 */
import {
  bad,
  boxOf,
  cellAt,
  cellCentre,
  cellCount,
  type Fault,
  good,
  type Grid,
  gridOver,
  type Result,
  someOf,
  say,
} from '../base/index.ts'
import { type BoardModel, type PlacedPart, type Side, standsOnBoard } from '../board/index.ts'
import { alloyOf, heatAssumptions } from './assumptions.ts'
import { type BodyNodes, bodyDraft, LEAST_SHARE, type NodeDraft, packNodes } from './bodies.ts'
import { coverBoard } from './coverage.ts'
import { type JointPoints, jointPointsAt } from './joint-points.ts'
import type { HeatSetting } from './result.ts'
import { sheetStack } from './sheet.ts'

export interface ThermalBoard {
  readonly model: BoardModel
  /** The side that hot air acts on. */
  readonly side: Side
  readonly shields: HeatSetting['shields']
  readonly grid: Grid
  readonly parts: readonly PlacedPart[]
  /** J/K per cell; 0 off the board. */
  readonly capacityJPerK: Float64Array
  /** W/K to the right and to the upper neighbour; 0 where no board is shared. */
  readonly rightWPerK: Float64Array
  readonly upWPerK: Float64Array
  /** Bare board to the air, per side, m². */
  readonly bareTopM2: Float64Array
  readonly bareBottomM2: Float64Array
  readonly bodies: BodyNodes
  /** Latent heat of joints per cell, J, with the melting range that holds there. */
  readonly latent: {
    readonly cell: Int32Array
    readonly heatJ: Float64Array
    readonly solidusC: Float64Array
    readonly liquidusC: Float64Array
  }
  /** Per part, the cells under its joints, each once. */
  readonly jointCells: readonly Int32Array[]
  /** Per part, where its joints are: its pads, or without any the cells under its body. */
  readonly jointPoints: readonly JointPoints[]
  readonly notes: readonly string[]
}

export interface ThermalBoardOptions {
  readonly side?: Side
  readonly cellMm?: number
  readonly shields?: HeatSetting['shields']
}

/**
 * Parts that lie off the board take no part; a note names them.
 * @param options cell edge in mm (1 where left out), the side hot air acts on, neighbours under tape or a heat sink
 * @returns the network; or faults: a cell that is no length or makes too large a grid, a shield on an unknown part
 */
export function buildThermalBoard(model: BoardModel, options: ThermalBoardOptions = {}): Result<ThermalBoard> {
  const cellMm = options.cellMm ?? 1
  const shields = options.shields ?? []
  const faults = checkOptions(model, cellMm, shields)
  if (faults.length > 0) return bad(...faults)
  const grid = gridOver(model.box, cellMm)
  const stack = sheetStack(model.description)
  const cover = coverBoard(grid, model.outline, model.cutouts, model.drills)
  const cells = cellCount(grid)
  const cellM2 = (cellMm / 1000) ** 2
  const draft = bodyDraft(model, grid, cover.area, shields)
  const sheetWPerK = new Float64Array(cells).fill(stack.conductanceWPerK)
  for (const node of draft.nodes) sheetWPerK[node.cell] = (sheetWPerK[node.cell] ?? 0) + node.sidewaysWPerK
  const capacityJPerK = new Float64Array(cells)
  for (let i = 0; i < cells; i++) {
    const share = cover.area[i] ?? 0
    capacityJPerK[i] = share < LEAST_SHARE ? 0 : share * cellM2 * stack.capacityJPerM2K
  }
  const bare = bareAreas(cover.area, draft.nodes, cellM2)
  const isOn = model.parts.map((part) => overlapsBoard(part, model) && standsOnBoard(part))
  const joints = jointCellsOf(model.parts, isOn, grid, capacityJPerK, draft.nodes)
  const off = model.parts.filter((part) => !overlapsBoard(part, model)).map(({ ref }) => ref)
  return good({
    model,
    side: options.side ?? 'top',
    shields,
    grid,
    parts: model.parts,
    capacityJPerK,
    rightWPerK: faceConductance(cover.right, sheetWPerK, capacityJPerK, 1),
    upWPerK: faceConductance(cover.up, sheetWPerK, capacityJPerK, grid.columns),
    bareTopM2: bare.top,
    bareBottomM2: bare.bottom,
    bodies: packNodes(draft.nodes),
    latent: latentHeat(model.parts, joints, cells),
    jointCells: joints,
    jointPoints: model.parts.map((part, p) => {
      const middles = Array.from(joints[p] ?? [], (cell) => cellCentre(grid, cell))
      const hasPads = isOn[p] === true && part.pads.length > 0
      return jointPointsAt(grid, capacityJPerK, hasPads ? part.pads.map(({ at }) => at) : middles)
    }),
    notes: [
      ...stack.notes,
      ...draft.notes,
      ...(off.length === 0 ? [] : [say('Parts that lie off the board are left out: {off}.', { off: someOf(off) })]),
    ],
  })
}

const MOST_CELLS = 2_000_000

function checkOptions(model: BoardModel, cellMm: number, shields: HeatSetting['shields']): Fault[] {
  const faults: Fault[] = []
  const widthMm = model.box.maxX - model.box.minX
  const heightMm = model.box.maxY - model.box.minY
  if (!(cellMm > 0) || (widthMm / cellMm) * (heightMm / cellMm) > MOST_CELLS)
    faults.push({
      path: '$.cellMm',
      found: String(cellMm),
      expected: say('a length in mm that makes at most {MOSTCELLS} cells', { MOSTCELLS: MOST_CELLS }),
    })
  for (const [i, { ref }] of shields.entries()) {
    if (!model.partByRef.has(ref))
      faults.push({ path: `$.shields[${i}].ref`, found: ref, expected: say('the ref of a part on the board') })
  }
  return faults
}

/** Whether any of a part's body may lie over the board: their boxes overlap. */
export function overlapsBoard(part: PlacedPart, model: BoardModel): boolean {
  const box = boxOf(part.outline)
  return (
    box.maxX > model.box.minX && box.minX < model.box.maxX && box.maxY > model.box.minY && box.minY < model.box.maxY
  )
}

function bareAreas(
  share: Float64Array,
  nodes: readonly NodeDraft[],
  cellM2: number,
): { top: Float64Array; bottom: Float64Array } {
  const top = share.map((each) => (each < LEAST_SHARE ? 0 : each * cellM2))
  const bottom = top.slice()
  for (const { cell, side, areaM2 } of nodes) {
    const area = side === 0 ? top : bottom
    area[cell] = Math.max(0, (area[cell] ?? 0) - areaM2)
  }
  return { top, bottom }
}

/** Harmonic mean of two cells' k·d times the shared share of their face: second order, exact across a step in k·d. */
function faceConductance(
  face: Float64Array,
  sheet: Float64Array,
  capacity: Float64Array,
  stride: number,
): Float64Array {
  const out = new Float64Array(face.length)
  for (let i = 0; i + stride < face.length; i++) {
    if ((face[i] ?? 0) === 0 || capacity[i] === 0 || capacity[i + stride] === 0) continue
    const a = sheet[i] ?? 0
    const b = sheet[i + stride] ?? 0
    out[i] = ((face[i] ?? 0) * 2 * a * b) / (a + b)
  }
  return out
}

/** Cells under each part's pads; without pads, the cells under its body; none for a part off the board. */
function jointCellsOf(
  parts: readonly PlacedPart[],
  isOn: readonly boolean[],
  grid: Grid,
  capacity: Float64Array,
  nodes: readonly NodeDraft[],
): Int32Array[] {
  const bodyCells: number[][] = parts.map(() => [])
  for (const { part, cell } of nodes) bodyCells[part]?.push(cell)
  return parts.map((part, index) => {
    if (isOn[index] !== true) return new Int32Array(0)
    const under = part.pads.map((pad) => cellAt(grid, pad.at)).filter((cell) => (capacity[cell] ?? 0) > 0)
    return Int32Array.from(new Set(under.length > 0 ? under : (bodyCells[index] ?? [])))
  })
}

/** Joint volumes: a ball from its pad's width (sphere), a flat joint from pad area times the least standoff. */
function latentHeat(
  parts: readonly PlacedPart[],
  joints: readonly Int32Array[],
  cells: number,
): ThermalBoard['latent'] {
  const heat = new Float64Array(cells)
  const solidus = new Float64Array(cells)
  const liquidus = new Float64Array(cells)
  for (const [index, part] of parts.entries()) {
    const under = joints[index] ?? new Int32Array()
    const alloy = heatAssumptions.alloys[alloyOf(part.description)]
    const eachJ = (solderM3(part) * alloy.densityKgPerM3 * alloy.latentJPerKg) / Math.max(1, under.length)
    for (const cell of under) {
      heat[cell] = (heat[cell] ?? 0) + eachJ
      solidus[cell] = Math.max(solidus[cell] ?? 0, alloy.solidusC)
      liquidus[cell] = Math.max(liquidus[cell] ?? 0, alloy.liquidusC)
    }
  }
  const cell = Int32Array.from([...heat.keys()].filter((i) => (heat[i] ?? 0) > 0))
  return {
    cell,
    heatJ: Float64Array.from(cell, (i) => heat[i] ?? 0),
    solidusC: Float64Array.from(cell, (i) => solidus[i] ?? 0),
    liquidusC: Float64Array.from(cell, (i) => liquidus[i] ?? 0),
  }
}

function solderM3(part: PlacedPart): number {
  const flatMm = heatAssumptions.minimumStandoffMm.value
  if (part.pads.length === 0)
    return part.widthMm * part.lengthMm * heatAssumptions.defaultJointShare.value * flatMm * 1e-9
  return part.pads.reduce((sum, pad) => {
    const mm3 = pad.round ? (Math.PI / 6) * pad.widthMm ** 3 : pad.widthMm * pad.lengthMm * flatMm
    return sum + mm3 * 1e-9
  }, 0)
}
