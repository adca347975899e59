/**
 * Invented photos of boards with a known truth: a pinhole camera with a bending lens over the board, parts with heights,
 * markings and solder, clutter on the mask, a shadow, a spot of glare, blur and noise. Nothing in it is taken from the core:
 * the camera is made of its own place and turn.
 */
import { type Picture, type Point, type Random, seededRandom } from '../../src/base/index.ts'
import type { BoardModel, Side } from '../../src/board/index.ts'
import { cameraOver } from './board-photo-camera.ts'
import { lightOver, sceneOf } from './board-photo-scene.ts'
import type { Colour } from './board-photo-surfaces.ts'

export interface PhotoWish {
  readonly seed: number
  readonly widthPx?: number
  readonly heightPx?: number
  readonly side?: Side
  readonly mask?: keyof typeof MASKS
  /** Distortion in half diagonals of the picture. */
  readonly k1?: number
  readonly k2?: number
  /** Degrees off straight above, at most. */
  readonly tiltDeg?: number
  readonly noise?: number
  /** Parts stand as high as they are, else flat on the board. */
  readonly heights?: boolean
}

export interface BoardPhoto {
  readonly picture: Picture
  /** Where a point above the board is seen, in pixels; x and y as on the board from the top, for both sides. */
  readonly seen: (at: Point, heightMm?: number) => Point
}

/** Solder masks, as RGB. */
export const MASKS = {
  green: [38, 92, 58],
  black: [34, 35, 38],
  blue: [34, 58, 112],
  red: [122, 34, 36],
  white: [205, 205, 200],
} as const satisfies Readonly<Record<string, Colour>>

/** The same wish gives the same photo. */
export function photographed(model: BoardModel, wish: PhotoWish): BoardPhoto {
  const random = seededRandom(wish.seed)
  const { widthPx = 2000, heightPx = 1000, side = 'top', k1 = -0.05, k2 = 0.012 } = wish
  const camera = cameraOver(model, { random, widthPx, heightPx, side, tiltDeg: wish.tiltDeg ?? 7 })
  const lens = { cx: widthPx / 2, cy: heightPx / 2, radiusPx: Math.hypot(widthPx, heightPx) / 2, k1, k2 }
  const scene = sceneOf(model, {
    side,
    camera,
    heights: wish.heights ?? true,
    mask: MASKS[wish.mask ?? 'green'],
    random,
  })
  const light = lightOver(model, random)
  const channels = [0, 1, 2].map(() => new Float32Array(widthPx * heightPx))
  const straight = unbendTable(lens)
  const onBoard = { x: 0, y: 0 }
  const colour = new Float64Array(3)
  const lit = { gain: 1, glare: 0 }
  for (let row = 0, at = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++, at++) {
      const dx = column + 0.5 - lens.cx
      const dy = row + 0.5 - lens.cy
      const factor = straight(Math.hypot(dx, dy) / lens.radiusPx)
      camera.toBoard(dx * factor, dy * factor, onBoard)
      scene(onBoard, colour)
      light(onBoard, lit)
      for (let c = 0; c < 3; c++) setAt(channels[c], at, (colour[c] ?? 0) * lit.gain + lit.glare)
    }
  }
  const rgba = new Uint8ClampedArray(widthPx * heightPx * 4).fill(255)
  for (const [c, channel] of channels.entries()) {
    const soft = blurred(channel, widthPx)
    for (let i = 0; i < soft.length; i++) rgba[4 * i + c] = (soft[i] ?? 0) + (wish.noise ?? 3) * quickNormal(random)
  }
  const seen = (at: Point, heightMm = 0): Point => {
    const { x, y } = camera.project(at, heightMm)
    const square = (x * x + y * y) / lens.radiusPx ** 2
    const bend = 1 + square * (k1 + square * k2)
    return { x: lens.cx + x * bend, y: lens.cy + y * bend }
  }
  return { picture: { width: widthPx, height: heightPx, rgba }, seen }
}

/** The four corners of the board without what reaches out below, in board mm: upper left, upper right, lower right, lower left. */
export function boardCorners(model: BoardModel): Point[] {
  const { minX, maxX, maxY } = model.box
  const lower = Math.min(...model.outline.filter(({ x }) => x <= minX + 0.01).map(({ y }) => y))
  return [
    { x: minX, y: maxY },
    { x: maxX, y: maxY },
    { x: maxX, y: lower },
    { x: minX, y: lower },
  ]
}

interface BendingLens {
  readonly radiusPx: number
  readonly k1: number
  readonly k2: number
}

/** From the distance at which a bending lens shows a point to the factor that takes it to a straight lens’s. */
function unbendTable({ k1, k2 }: BendingLens): (seen: number) => number {
  const table = Array.from({ length: 1201 }, (_, i) => {
    const seen = i / 1000
    let rho = seen
    for (let step = 0; step < 40; step++) rho = seen / (1 + rho * rho * (k1 + rho * rho * k2))
    return seen === 0 ? 1 : rho / seen
  })
  return (seen) => {
    const at = Math.min(1199, Math.floor(seen * 1000))
    const share = seen * 1000 - at
    return (table[at] ?? 1) * (1 - share) + (table[at + 1] ?? 1) * share
  }
}

/** The lens is not quite sharp: weights 1, 2, 1 both ways. */
function blurred(channel: Float32Array, width: number): Float32Array {
  const pass = (from: Float32Array, step: number): Float32Array => {
    const to = from.slice()
    for (let i = step; i < from.length - step; i++)
      to[i] = 0.25 * (from[i - step] ?? 0) + 0.5 * (from[i] ?? 0) + 0.25 * (from[i + step] ?? 0)
    return to
  }
  return pass(pass(channel, 1), width)
}

/** Near enough normal for noise: a sum of four uniforms. */
const quickNormal = (random: Random): number =>
  (random.next() + random.next() + random.next() + random.next() - 2) * Math.sqrt(3)

function setAt(channel: Float32Array | undefined, at: number, value: number): void {
  if (channel !== undefined) channel[at] = value
}
