/** Copper layers of an invented card. */
import type { BoardFile } from './plan.ts'

/** Ten layers, as such cards usually have: common practice, no source. */
export const COPPER: NonNullable<BoardFile['copper']> = [
  ['top', 45, 0.55],
  ['ground 2', 35, 0.9],
  ['signal 3', 18, 0.4],
  ['power 4', 35, 0.8],
  ['ground 5', 35, 0.9],
  ['power 6', 35, 0.8],
  ['ground 7', 35, 0.9],
  ['signal 8', 18, 0.4],
  ['ground 9', 35, 0.9],
  ['bottom', 45, 0.55],
].map(([name, thicknessUm, fill]) => ({ name: String(name), thicknessUm: Number(thicknessUm), fill: Number(fill) }))
