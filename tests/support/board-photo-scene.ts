/** What a camera sees of a board: solid parts over a mask with traces, vias and print, the table beyond, shadow and glare. */
import { type Point, polygonContains, type Random } from '../../src/base/index.ts'
import type { BoardModel, PlacedPart, Side } from '../../src/board/index.ts'
import type { Camera } from './board-photo-camera.ts'
import { type Colour, surfaceOf } from './board-photo-surfaces.ts'

const TABLE: Colour = [176, 168, 154]

interface SceneWish {
  readonly side: Side
  readonly camera: Camera
  readonly heights: boolean
  readonly mask: Colour
  readonly random: Random
}

const BIN_MM = 4

/** The colour that is seen where a ray meets the board’s plane, written to `colour`. */
export function sceneOf(
  model: BoardModel,
  { side, camera, heights, mask, random }: SceneWish,
): (at: Point, colour: Float64Array) => void {
  const solids = model.parts
    .filter((part) => part.side === side && part.heightMm > 0.15)
    .map((part) => solidOf(part, heights ? part.heightMm : 0))
    .toSorted((a, b) => a.heightMm - b.heightMm)
  const { minX, minY, maxX, maxY } = model.box
  const columns = Math.ceil((maxX - minX) / BIN_MM) + 4
  const bins: Solid[][] = Array.from({ length: columns * (Math.ceil((maxY - minY) / BIN_MM) + 4) }, () => [])
  const binAt = ({ x, y }: Point): number =>
    (Math.floor((y - minY) / BIN_MM) + 2) * columns + Math.floor((x - minX) / BIN_MM) + 2
  for (const solid of solids) {
    const reach = solid.reachMm + 3 * solid.heightMm * 0.6 + BIN_MM
    const near = new Set<number>()
    for (let x = -reach; x <= reach; x += BIN_MM / 2)
      for (let y = -reach; y <= reach; y += BIN_MM / 2) near.add(binAt({ x: solid.at.x + x, y: solid.at.y + y }))
    for (const bin of near) bins[bin]?.push(solid)
  }
  const bare = bareBoard(model, mask, random)
  return (at, colour) => {
    bare(at, colour)
    if (at.x < minX - 6 || at.x > maxX + 6 || at.y < minY - 6 || at.y > maxY + 6) return
    for (const solid of bins[binAt(at)] ?? []) solid.over(colour, at, camera)
  }
}

interface Solid {
  readonly at: Point
  readonly heightMm: number
  readonly reachMm: number
  /** Lays its colour over what is below, where it is seen. */
  readonly over: (colour: Float64Array, at: Point, camera: Camera) => void
}

const SOFT_EDGE_MM = 0.12

function solidOf(part: PlacedPart, heightMm: number): Solid {
  const { placement, widthMm, lengthMm } = part
  const angle = (placement.rotationDeg * Math.PI) / 180
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
  const middle = boxMiddle(part)
  const { top, wall } = surfaceOf(part)
  const reachMm = Math.hypot(widthMm, lengthMm) / 2
  return {
    at: middle,
    heightMm,
    reachMm,
    over: (colour, at, camera) => {
      const lean = heightMm / camera.aboveMm
      const leanX = (camera.at.x - at.x) * lean
      const leanY = (camera.at.y - at.y) * lean
      const dx = at.x - middle.x
      const dy = at.y - middle.y
      if (Math.hypot(dx, dy) > reachMm + Math.hypot(leanX, leanY) + SOFT_EDGE_MM) return
      const depthAt = (share: number): number => {
        const x = dx + leanX * share
        const y = dy + leanY * share
        return Math.min(widthMm / 2 - Math.abs(x * cos + y * sin), lengthMm / 2 - Math.abs(y * cos - x * sin))
      }
      if (heightMm > 0.4) {
        let deepest = -1
        for (let z = 0; z < 1; z += 0.2) deepest = Math.max(deepest, depthAt(z))
        blend(colour, wall, 0.5 + deepest / SOFT_EDGE_MM)
      }
      const cover = 0.5 + depthAt(1) / SOFT_EDGE_MM
      if (cover <= 0) return
      const x = (dx + leanX) * cos + (dy + leanY) * sin
      blend(colour, top(placement.mirrored ? -x : x, (dy + leanY) * cos - (dx + leanX) * sin), cover)
    },
  }
}

const boxMiddle = ({ box }: PlacedPart): Point => ({ x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 })

function blend(colour: Float64Array, above: Colour, cover: number): void {
  const share = Math.max(0, Math.min(1, cover))
  for (let c = 0; c < 3; c++) colour[c] = (colour[c] ?? 0) + share * ((above[c] ?? 0) - (colour[c] ?? 0))
}

const TEXTURE_PX_PER_MM = 6

/** Mask with traces, vias, pads and print; the table beyond the edge and in the holes. */
function bareBoard(model: BoardModel, mask: Colour, random: Random): (at: Point, colour: Float64Array) => void {
  const { minX, minY, maxX, maxY } = model.box
  const width = Math.ceil((maxX - minX) * TEXTURE_PX_PER_MM)
  const height = Math.ceil((maxY - minY) * TEXTURE_PX_PER_MM)
  const lift = new Float32Array(width * height)
  const dab = (x: number, y: number, rise: number): void => {
    const at = Math.round(y) * width + Math.round(x)
    if (x >= 0 && y >= 0 && x < width && y < height) lift[at] = rise
  }
  for (let trace = 0; trace < 500; trace++) {
    let [x, y] = [random.next() * width, random.next() * height]
    const heading = (random.whole(8) * Math.PI) / 4
    const rise = 5 + 9 * random.next()
    for (let step = 0; step < 30 + random.next() * 150; step++) {
      x += Math.cos(heading)
      y += Math.sin(heading)
      dab(x, y, rise)
      dab(x + 1, y, rise)
    }
  }
  for (let via = 0; via < 900; via++) {
    const [x, y] = [random.next() * width, random.next() * height]
    for (let i = -1; i <= 1; i++) for (let j = -1; j <= 1; j++) dab(x + i, y + j, 38)
  }
  for (let print = 0; print < 60; print++) {
    const [x, y] = [random.next() * width, random.next() * height]
    for (let i = 0; i < 14; i++) for (let j = 0; j < 6; j++) if (random.next() < 0.5) dab(x + i, y + j, 120)
  }
  const onTable = (at: Point): boolean =>
    !polygonContains(model.outline, at) ||
    model.drills.some((hole) => Math.hypot(hole.at.x - at.x, hole.at.y - at.y) < hole.diameterMm / 2)
  const edgeOf = tableCells(model, onTable)
  return (at, colour) => {
    const cover = edgeOf(at)
    colour.set(TABLE)
    if (cover === 0) return
    const x = Math.floor((at.x - minX) * TEXTURE_PX_PER_MM)
    const y = Math.floor((at.y - minY) * TEXTURE_PX_PER_MM)
    const rise = x >= 0 && y >= 0 && x < width && y < height ? (lift[y * width + x] ?? 0) : 0
    for (let c = 0; c < 3; c++) colour[c] = (TABLE[c] ?? 0) + cover * ((mask[c] ?? 0) + rise - (TABLE[c] ?? 0))
  }
}

/** Whether a place is board (1), table (0) or on the edge between (looked at closely), by a raster of 1 mm. */
function tableCells(model: BoardModel, onTable: (at: Point) => boolean): (at: Point) => number {
  const { minX, minY, maxX, maxY } = model.box
  const columns = Math.ceil(maxX - minX) + 4
  const rows = Math.ceil(maxY - minY) + 4
  const cells = new Int8Array(columns * rows)
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const at = { x: minX + column - 2, y: minY + row - 2 }
      let table = 0
      for (let i = -0.25; i <= 1.26; i += 0.25)
        for (let j = -0.25; j <= 1.26; j += 0.25) table += onTable({ x: at.x + i, y: at.y + j }) ? 1 : 0
      cells[row * columns + column] = table === 0 ? 1 : table === 49 ? 0 : -1
    }
  return (at) => {
    const column = Math.floor(at.x - minX) + 2
    const row = Math.floor(at.y - minY) + 2
    if (column < 0 || row < 0 || column >= columns || row >= rows) return 0
    const known = cells[row * columns + column] ?? 0
    if (known >= 0) return known
    let board = 0
    for (const i of [-0.045, -0.015, 0.015, 0.045])
      for (const j of [-0.045, -0.015, 0.015, 0.045]) board += onTable({ x: at.x + i, y: at.y + j }) ? 0 : 1
    return board / 16
  }
}

interface Light {
  gain: number
  glare: number
}

/** A shadow that deepens to one side, and a spot of glare. */
export function lightOver({ box }: BoardModel, random: Random): (at: Point, lit: Light) => void {
  const heading = random.next() * 2 * Math.PI
  const [dx, dy] = [Math.cos(heading), Math.sin(heading)]
  const middle = { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 }
  const reach = Math.hypot(box.maxX - box.minX, box.maxY - box.minY) / 2
  const edge = (random.next() - 0.3) * reach
  const spot = {
    x: box.minX + (0.15 + 0.7 * random.next()) * (box.maxX - box.minX),
    y: box.minY + (0.2 + 0.6 * random.next()) * (box.maxY - box.minY),
  }
  const spreadMm = 9 + 8 * random.next()
  return ({ x, y }, lit) => {
    const along = (x - middle.x) * dx + (y - middle.y) * dy
    const shade = 1 / (1 + Math.exp(-(along - edge) / 6))
    const far = ((x - spot.x) ** 2 + (y - spot.y) ** 2) / (2 * spreadMm * spreadMm)
    lit.gain = 0.95 + (0.25 * along) / reach - 0.2 * shade
    lit.glare = far > 12 ? 0 : 70 * Math.exp(-far)
  }
}
