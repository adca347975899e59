/** How a file turns and mirrors packages: by its own pads, as writers read the standard differently. */
import { distance, type Point } from '../../../base/index.ts'
import type { PiecePad } from '../pieces.ts'
import type { Component, Package } from './step.ts'

/** From a package's own drawing to the board. */
interface Turn {
  /** Of the rotation that the file gives, after the mirror. */
  readonly sign: 1 | -1
  /** Which axis keeps its sign when a bottom part is mirrored; none where the drawing is mirrored already. */
  readonly mirror: 'x' | 'y' | 'none'
}

export type Turns = Readonly<Record<'plain' | 'mirrored', Turn>>

const USUAL: Turns = { plain: { sign: 1, mirror: 'none' }, mirrored: { sign: 1, mirror: 'y' } }
const MIRRORED: readonly Turn[] = [
  USUAL.mirrored,
  ...([1, -1] as const).flatMap((sign) => (['y', 'x', 'none'] as const).map((mirror): Turn => ({ sign, mirror }))),
]
const NEAR_MM = 0.05
const PARTS_LOOKED_AT = 400

/** The turn under which most pins of packages lie on pads; the standard's where no pads tell. */
export function turnsOf(
  components: readonly Component[],
  packages: ReadonlyMap<string, Package>,
  padsOf: (ref: string) => readonly PiecePad[],
): Turns {
  const mirrored = components.filter(({ isMirrored }) => isMirrored).slice(0, PARTS_LOOKED_AT)
  const hits = (turn: Turn): number =>
    mirrored.reduce((sum, part) => sum + pinsOnPads(part, packages.get(part.packageName), padsOf(part.ref), turn), 0)
  const scored = MIRRORED.map((turn) => ({ turn, hits: hits(turn) }))
  const best = scored.reduce((a, b) => (b.hits > a.hits ? b : a), { turn: USUAL.mirrored, hits: 0 })
  return { plain: USUAL.plain, mirrored: best.turn }
}

function pinsOnPads(part: Component, own: Package | undefined, pads: readonly PiecePad[], turn: Turn): number {
  return (own?.pins ?? []).filter(({ number, at }) => {
    const there = placed(at, part, turn)
    return pads.some((pad) => pad.number === number && distance(pad.at, there) < NEAR_MM)
  }).length
}

/** A point of the package's own drawing on the board. */
export const onBoard = (point: Point, part: Component, turns: Turns): Point =>
  placed(point, part, part.isMirrored ? turns.mirrored : turns.plain)

function placed({ x, y }: Point, { at, rotationDeg }: Component, { sign, mirror }: Turn): Point {
  const [px, py] = [mirror === 'y' ? -x : x, mirror === 'x' ? -y : y]
  const turn = (sign * rotationDeg * Math.PI) / 180
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)]
  return { x: at.x + px * cos - py * sin, y: at.y + px * sin + py * cos }
}

/** The turn of a part as boards here count it: a bottom part's drawing is mirrored left and right before it is turned. */
export function rotationOf({ rotationDeg, isMirrored }: Component, turns: Turns): number {
  if (!isMirrored) return rotationDeg
  const { sign, mirror } = turns.mirrored
  return (sign * rotationDeg + (mirror === 'x' ? 180 : 0)) % 360
}
