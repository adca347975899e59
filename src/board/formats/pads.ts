/** What the pads of a part tell of it. */
import { boxOf, type Point } from '../../base/index.ts'
import type { Side } from '../schema.ts'
import type { PiecePad } from './pieces.ts'

/** Amid the outermost pads. */
export function middleOf(pads: readonly PiecePad[]): Point {
  const box = boxOf(pads.map(({ at }) => at))
  return { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 }
}

/** By the surface pads; undefined for a part whose pads all go through the board. */
export function sideOfPads(pads: readonly PiecePad[]): Side | undefined {
  const top = pads.filter(({ access }) => access === 'top').length
  const bottom = pads.filter(({ access }) => access === 'bottom').length
  return top + bottom === 0 ? undefined : top >= bottom ? 'top' : 'bottom'
}
