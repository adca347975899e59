/** A pinhole camera over a board, a little askew: made of its own place and turn, so that nothing of the core is in it. */
import type { Point, Random } from '../../src/base/index.ts'
import type { BoardModel, Side } from '../../src/board/index.ts'

const FOCAL = 1.25

export interface Place {
  x: number
  y: number
}

interface CameraWish {
  readonly random: Random
  readonly widthPx: number
  readonly heightPx: number
  readonly side: Side
  readonly tiltDeg: number
}

export interface Camera {
  readonly at: Point
  readonly aboveMm: number
  /** Pixels from the middle of the picture, through a straight lens, to the board: the point is written to. */
  readonly toBoard: (dx: number, dy: number, point: Place) => void
  /** The way there, for a point above the board. */
  readonly project: (at: Point, heightMm: number) => Point
}

export function cameraOver(model: BoardModel, { random, widthPx, heightPx, side, tiltDeg }: CameraWish): Camera {
  const { box } = model
  const flip = side === 'bottom' ? -1 : 1
  const middle = { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 }
  const focalPx = FOCAL * (0.93 + 0.14 * random.next()) * (Math.hypot(widthPx, heightPx) / 2)
  const fit = Math.min((0.88 * widthPx) / (box.maxX - box.minX), (0.84 * heightPx) / (box.maxY - box.minY))
  const awayMm = focalPx / fit
  const turn = (degrees: number): number => ((random.next() * 2 - 1) * degrees * Math.PI) / 180
  const r = rotation(turn(tiltDeg) * 0.7, turn(tiltDeg) * 0.7, turn(2))
  // from board mm about the middle, y up, to the camera: x right, y down, z away
  const toCamera = (at: Point, heightMm: number): readonly [number, number, number] => {
    const v = [flip * (at.x - middle.x), -(at.y - middle.y), -heightMm] as const
    const turned = r.map((row) => (row[0] ?? 0) * v[0] + (row[1] ?? 0) * v[1] + (row[2] ?? 0) * v[2])
    return [turned[0] ?? 0, turned[1] ?? 0, (turned[2] ?? 0) + awayMm]
  }
  const column = (k: number): readonly [number, number, number] => [r[0]?.[k] ?? 0, r[1]?.[k] ?? 0, r[2]?.[k] ?? 0]
  const [[a0, b0, d0], [a1, b1, d1], [a2, b2, d2]] = [column(0), column(1), column(2)]
  const camera = [-awayMm * d0, -awayMm * d1, -awayMm * d2] as const
  return {
    at: { x: middle.x + flip * camera[0], y: middle.y - camera[1] },
    aboveMm: -camera[2],
    toBoard: (dx, dy, point) => {
      const share = -camera[2] / (a2 * dx + b2 * dy + d2 * focalPx)
      point.x = middle.x + flip * (camera[0] + share * (a0 * dx + b0 * dy + d0 * focalPx))
      point.y = middle.y - (camera[1] + share * (a1 * dx + b1 * dy + d1 * focalPx))
    },
    project: (at, heightMm) => {
      const [x, y, z] = toCamera(at, heightMm)
      return { x: (focalPx * x) / z, y: (focalPx * y) / z }
    },
  }
}

function rotation(about1: number, about2: number, about3: number): number[][] {
  const [cx, sx, cy, sy, cz, sz] = [about1, about2, about3].flatMap((angle) => [Math.cos(angle), Math.sin(angle)])
  const x = [
    [1, 0, 0],
    [0, cx ?? 1, -(sx ?? 0)],
    [0, sx ?? 0, cx ?? 1],
  ]
  const y = [
    [cy ?? 1, 0, sy ?? 0],
    [0, 1, 0],
    [-(sy ?? 0), 0, cy ?? 1],
  ]
  const z = [
    [cz ?? 1, -(sz ?? 0), 0],
    [sz ?? 0, cz ?? 1, 0],
    [0, 0, 1],
  ]
  return product(z, product(y, x))
}

const product = (a: readonly (readonly number[])[], b: readonly (readonly number[])[]): number[][] =>
  a.map((row) => [0, 1, 2].map((j) => row.reduce((sum, value, k) => sum + value * (b[k]?.[j] ?? 0), 0)))
