/** Bodies on the board as nodes of heat, one per cell that a body covers: what each stores and how it is coupled. */
import { say } from '../base/index.ts'
import type { Grid } from '../base/index.ts'
import { type BoardModel, type PlacedPart, standsOnBoard } from '../board/index.ts'
import { heatAssumptions } from './assumptions.ts'
import { SUBCELLS, visitSubcells } from './coverage.ts'
import type { HeatSetting } from './result.ts'

/** Cells with less board than this are left out: their heat is that of a crumb. */
export const LEAST_SHARE = 1 / 32

export interface BodyNodes {
  /** Per node: its cell, index of its part in `parts`, 0 top or 1 bottom. */
  readonly cell: Int32Array
  readonly part: Int32Array
  readonly side: Uint8Array
  readonly areaM2: Float64Array
  readonly capacityJPerK: Float64Array
  /** Through joints, gap and half the body. */
  readonly linkWPerK: Float64Array
  /** Share of the jet's film that reaches it: 1, or less under tape. */
  readonly jetFactor: Float64Array
}

export interface NodeDraft {
  readonly cell: number
  readonly part: number
  readonly side: 0 | 1
  readonly areaM2: number
  readonly capacityJPerK: number
  readonly linkWPerK: number
  readonly sidewaysWPerK: number
  readonly jetFactor: number
}

/**
 * Splits each body over the cells below it, in proportion to the area on each; cells with too little board are passed
 * over. What stands on the core's substrate is within the core's own body. Returns the nodes in the order of the parts, and a note where a joint alloy was assumed. `boardShare` is the
 * share of each cell that is board.
 */
export function bodyDraft(
  model: BoardModel,
  grid: Grid,
  boardShare: Float64Array,
  shields: HeatSetting['shields'],
): { nodes: NodeDraft[]; notes: string[] } {
  const nodes: NodeDraft[] = []
  let withoutAlloy = 0
  for (const [index, part] of model.parts.entries()) {
    if (!standsOnBoard(part)) continue
    if (part.description.jointAlloy === undefined) withoutAlloy++
    const film = bodyFilm(part, shields.find(({ ref }) => ref === part.ref)?.kind)
    for (const [cell, share] of sharesOf(grid, part)) {
      if ((boardShare[cell] ?? 0) < LEAST_SHARE) continue
      const areaM2 = share * (grid.cellMm / 1000) ** 2
      nodes.push({
        cell,
        part: index,
        side: part.side === 'top' ? 0 : 1,
        areaM2,
        capacityJPerK: film.capacityJPerM2K * areaM2,
        linkWPerK: film.linkWPerM2K * areaM2,
        sidewaysWPerK: film.sidewaysWPerK * share,
        jetFactor: film.jetFactor,
      })
    }
  }
  const name = heatAssumptions.defaultAlloy.value
  const notes =
    withoutAlloy > 0
      ? [
          say('{withoutAlloy} parts have no joint alloy in the board file: {name} is assumed for them.', {
            withoutAlloy,
            name,
          }),
        ]
      : []
  return { nodes, notes }
}

/** Share of each cell that a part's body covers. */
function sharesOf(grid: Grid, part: PlacedPart): Map<number, number> {
  const shares = new Map<number, number>()
  visitSubcells(grid, part.outline, (column, row) => {
    const cell = Math.floor(row / SUBCELLS) * grid.columns + Math.floor(column / SUBCELLS)
    shares.set(cell, (shares.get(cell) ?? 0) + 1 / (SUBCELLS * SUBCELLS))
  })
  return shares
}

interface BodyFilm {
  readonly capacityJPerM2K: number
  readonly linkWPerM2K: number
  readonly sidewaysWPerK: number
  readonly jetFactor: number
}

/** A body per area: what it stores, how joints, gap and half its height couple it, what it carries sideways. */
function bodyFilm(part: PlacedPart, shield: 'tape' | 'heat-sink' | undefined): BodyFilm {
  const a = heatAssumptions
  const material = a.bodies[part.kind]
  const heightM = Math.max(0.1, part.heightMm) / 1000
  const standoffM = Math.max(a.minimumStandoffMm.value, part.standoffMm) / 1000
  const share = jointShare(part)
  const gap = part.description.bonding === 'underfill' ? a.underfillKWPerMK : a.gapKWPerMK
  const joint = (a.solderKWPerMK.value * share + gap.value * (1 - share)) / standoffM
  const half = (2 * material.kWPerMK) / heightM
  const sink = shield === 'heat-sink' ? a.heatSinkJPerM2K.value : 0
  return {
    capacityJPerM2K: material.rhoCJPerM3K * heightM + sink,
    linkWPerM2K: 1 / (1 / joint + 1 / half),
    sidewaysWPerK: material.inPlaneKWPerMK * heightM,
    jetFactor: shield === 'tape' ? a.tapeJetFactor.value : 1,
  }
}

function jointShare(part: PlacedPart): number {
  const bodyMm2 = part.widthMm * part.lengthMm
  if (part.pads.length === 0 || bodyMm2 === 0) return heatAssumptions.defaultJointShare.value
  const padsMm2 = part.pads.reduce((sum, pad) => sum + pad.widthMm * pad.lengthMm * (pad.round ? Math.PI / 4 : 1), 0)
  return padsMm2 === 0 ? heatAssumptions.defaultJointShare.value : Math.min(1, padsMm2 / bodyMm2)
}

/**
 * The same nodes as typed arrays for the kernels, in the order given; the coupling to neighbouring nodes is left out.
 */
export function packNodes(nodes: readonly NodeDraft[]): BodyNodes {
  const count = nodes.length
  const packed: BodyNodes = {
    cell: new Int32Array(count),
    part: new Int32Array(count),
    side: new Uint8Array(count),
    areaM2: new Float64Array(count),
    capacityJPerK: new Float64Array(count),
    linkWPerK: new Float64Array(count),
    jetFactor: new Float64Array(count),
  }
  for (const [n, node] of nodes.entries()) {
    packed.cell[n] = node.cell
    packed.part[n] = node.part
    packed.side[n] = node.side
    packed.areaM2[n] = node.areaM2
    packed.capacityJPerK[n] = node.capacityJPerK
    packed.linkWPerK[n] = node.linkWPerK
    packed.jetFactor[n] = node.jetFactor
  }
  return packed
}
