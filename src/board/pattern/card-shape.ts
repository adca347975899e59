/** Edge and holes of a card that stands in a slot: bracket on the left, connector tab on the lower edge. Sizes in mm. */
import type { Point } from '../../base/index.ts'

/** How far the tab with the contacts reaches below the card's lower edge. */
export const TAB_MM = 8
const TAB_LEFT_MM = 58

interface CardSize {
  readonly widthMm: number
  /** From the tip of the tab to the upper edge. */
  readonly heightMm: number
}

interface CardCore {
  readonly core: { readonly at: Point; readonly sizeMm: number }
}

/** Counter-clockwise from the lower left; the tab has its key notch and bevelled corners. */
export function cardOutline({ widthMm, heightMm }: CardSize): Point[] {
  const corners: readonly (readonly [number, number])[] = [
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
  return corners.map(([x, y]) => ({ x, y }))
}

/** Four cooler holes around the core, four at the card's corners. */
export function cardHoles(
  card: CardSize & CardCore,
): { readonly at: Point; readonly diameterMm: number; readonly plated: boolean }[] {
  const { x, y } = card.core.at
  const reach = card.core.sizeMm / 2 + 6
  const cooler = [-1, 1].flatMap((sx) => [-1, 1].map((sy) => ({ x: x + sx * reach, y: y + sy * reach })))
  const corners = [
    { x: 22, y: TAB_MM + 5 },
    { x: 22, y: card.heightMm - 5 },
    { x: card.widthMm - 5, y: TAB_MM + 5 },
    { x: card.widthMm - 5, y: card.heightMm - 5 },
  ]
  return [
    ...cooler.map((at) => ({ at, diameterMm: 3, plated: false })),
    ...corners.map((at) => ({ at, diameterMm: 3.2, plated: true })),
  ]
}
