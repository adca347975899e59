/** Columns of power stages beside the ring: how many fit, and where each stands. Sizes in mm. */
import { BULK_BODY, INDUCTOR_BODY, STAGE_BODY } from './card-parts.ts'
import { TAB_MM } from './card-shape.ts'

/** From one stage to the next up the column: an inductor and room for the iron. Common practice, no source. */
const ROW_MM = 9.5
const LOOSEST_ROW_MM = 14
const ABOVE_TAB_MM = 4
const BELOW_TOP_MM = 1.5
/** Between stage and inductor, and between that and its capacitor. */
const BETWEEN_MM = 1
export const INDUCTOR_AWAY_MM = STAGE_BODY.widthMm / 2 + BETWEEN_MM + INDUCTOR_BODY.widthMm / 2
export const BULK_AWAY_MM = INDUCTOR_BODY.widthMm / 2 + BETWEEN_MM + BULK_BODY.widthMm / 2
/** Width of a column with its inductors and capacitors, and a way past it. */
export const COLUMN_MM = STAGE_BODY.widthMm / 2 + INDUCTOR_AWAY_MM + BULK_AWAY_MM + BULK_BODY.widthMm / 2 + 2

export interface StageColumn {
  /** Middle of the stages. */
  readonly x: number
  /** Away from the core: to the right or to the left. */
  readonly away: 1 | -1
  /** Middles of the stages from the top down. */
  readonly ys: readonly number[]
}

const lowest = TAB_MM + ABOVE_TAB_MM + INDUCTOR_BODY.lengthMm / 2
const highest = (heightMm: number): number => heightMm - BELOW_TOP_MM - INDUCTOR_BODY.lengthMm / 2

/** Stages that one column of a card takes. */
export const rowsThatFit = (heightMm: number): number => Math.floor((highest(heightMm) - lowest) / ROW_MM) + 1

interface Sides {
  readonly left: number
  readonly right: number
}

/**
 * Columns in the order right, left, right, left, outwards, filled as evenly as can be.
 * @param sides how many columns on each side; @param edges where the room beside the ring begins
 */
export function columnsOf(stages: number, sides: Sides, edges: Sides, heightMm: number): StageColumn[] {
  const columns = Array.from({ length: Math.max(sides.left, sides.right) }, (_, i) => i).flatMap((i) => [
    ...(i < sides.right ? [{ x: edges.right + STAGE_BODY.widthMm / 2 + i * COLUMN_MM, away: 1 as const }] : []),
    ...(i < sides.left ? [{ x: edges.left - STAGE_BODY.widthMm / 2 - i * COLUMN_MM, away: -1 as const }] : []),
  ])
  return columns.map(({ x, away }, i) => {
    const count = Math.floor((stages + columns.length - 1 - i) / columns.length)
    return { x: rounded(x), away, ys: rowsOf(count, heightMm) }
  })
}

function rowsOf(count: number, heightMm: number): number[] {
  const top = highest(heightMm)
  const middle = (top + lowest) / 2
  const step = count < 2 ? 0 : Math.min(LOOSEST_ROW_MM, (top - lowest) / (count - 1))
  return Array.from({ length: count }, (_, i) => rounded(middle + ((count - 1) / 2 - i) * step))
}

const rounded = (mm: number): number => Math.round(mm * 100) / 100
