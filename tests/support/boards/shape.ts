/** Outline, holes and copper of an invented card: a full-length card with a 16-lane edge connector. */
import type { BoardFile, CardPlan } from './plan.ts'

const TAB_MM = 8
const TAB_LEFT_MM = 58

/** Counter-clockwise from the lower left; the tab has its key notch and bevelled corners. */
export function outlineOf({ widthMm, heightMm }: CardPlan): BoardFile['outline'] {
  const tab: readonly (readonly [number, number])[] = [
    [0, TAB_MM],
    [TAB_LEFT_MM, TAB_MM],
    [TAB_LEFT_MM, 1],
    [TAB_LEFT_MM + 1, 0],
    [TAB_LEFT_MM + 12, 0],
    [TAB_LEFT_MM + 12, TAB_MM - 1],
    [TAB_LEFT_MM + 14, TAB_MM - 1],
    [TAB_LEFT_MM + 14, 0],
    [TAB_LEFT_MM + 85, 0],
    [TAB_LEFT_MM + 86, 1],
    [TAB_LEFT_MM + 86, TAB_MM],
    [widthMm, TAB_MM],
    [widthMm, heightMm],
    [0, heightMm],
  ]
  return tab.map(([x, y]) => ({ x, y }))
}

/** Four cooler holes around the core, four at the card's corners. */
export function holesOf(plan: CardPlan): BoardFile['holes'] {
  const { x, y } = plan.core.at
  const reach = plan.core.sizeMm / 2 + 6
  const cooler = [-1, 1].flatMap((sx) => [-1, 1].map((sy) => ({ x: x + sx * reach, y: y + sy * reach })))
  const corners = [
    { x: 22, y: TAB_MM + 5 },
    { x: 22, y: plan.heightMm - 5 },
    { x: plan.widthMm - 5, y: TAB_MM + 5 },
    { x: plan.widthMm - 5, y: plan.heightMm - 5 },
  ]
  return [
    ...cooler.map((at) => ({ at, diameterMm: 3, plated: false })),
    ...corners.map((at) => ({ at, diameterMm: 3.2, plated: true })),
  ]
}

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
