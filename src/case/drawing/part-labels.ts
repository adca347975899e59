/** Refs in the middle of parts, only where they fit; and what free labels keep off because of the parts. */
import { type Box, say } from '../../base/index.ts'
import { partKinds, type PlacedPart } from '../../board/index.ts'
import { boxOn, type DrawnText, type DrawnView, type MeasureText, middleOfBox } from './shape.ts'

export const SMALLEST_TEXT_PX = 12

export interface PartLabel {
  readonly part: PlacedPart
  readonly text: string
  readonly size: number
  readonly weight: 500 | 700
  readonly box: Box
  /** What it is, under the ref of a large core. */
  readonly kind?: string
}

/** Refs that fit into their parts on this drawing, with the boxes that they take; `names` say other words for some refs. */
export function partLabels(
  view: DrawnView,
  parts: readonly PlacedPart[],
  measure: MeasureText,
  names?: ReadonlyMap<string, string>,
): PartLabel[] {
  const { unit } = view
  return parts.flatMap((part) => {
    const text = names?.get(part.ref) ?? part.ref
    const box = boxOn(view, part.box)
    const width = (box.maxX - box.minX) / unit
    const height = (box.maxY - box.minY) / unit
    const sizePx = refSizePx(part, text, width, height)
    const weight = inInk(part) ? 700 : 500
    const taken = measure(text, { size: sizePx, weight })
    if (sizePx < SMALLEST_TEXT_PX || taken > width - 3 || sizePx > height - 1) return []
    const { x, y } = middleOfBox(box)
    const [halfWidth, halfHeight] = [(taken / 2) * unit, (sizePx / 2) * unit]
    const around = { minX: x - halfWidth, maxX: x + halfWidth, minY: y - halfHeight, maxY: y + halfHeight }
    const kind = kindUnder(part, sizePx, width, measure)
    return [{ part, text, size: sizePx * unit, weight, box: around, ...(kind === undefined ? {} : { kind }) }]
  })
}

const KIND_FROM_PX = 18
const KIND_PX = 14
/** How much of a package its die takes, about; so wide a word is short enough on any. */
const DIE_SHARE = 0.4
const SHORT_WORD_PX = 36

/** The word for a core, where it stays on the die: some languages have a long one. */
function kindUnder(part: PlacedPart, refPx: number, widthPx: number, measure: MeasureText): string | undefined {
  if (part.kind !== 'core' || refPx < KIND_FROM_PX) return undefined
  const word = say('core')
  return measure(word, { size: KIND_PX, weight: 400 }) <= Math.max(SHORT_WORD_PX, DIE_SHARE * widthPx)
    ? word
    : undefined
}

/** The words of a label: the ref, and under a large core's what it is. */
export function partTexts({ unit }: DrawnView, { part, text, size, weight, box, kind }: PartLabel): DrawnText[] {
  const { x, y } = middleOfBox(box)
  const ref = {
    text,
    size,
    weight,
    colour: weight === 700 ? 'ink' : 'muted',
    halo: groundOf(part),
    align: 'center',
  } as const
  if (kind === undefined) return [{ ...ref, at: { x, y } }]
  const under = { ...ref, text: kind, size: KIND_PX * unit, weight: 400, colour: 'muted' } as const
  return [
    { ...ref, at: { x, y: y - 8 * unit } },
    { ...under, at: { x, y: y + 13 * unit } },
  ]
}

/** A lane's name inside its package, with the dot that it has in `U13.B1`: without one it would read as a part. */
export const laneLabel = (name: string): string => `.${name}`

/** What a part's words lie on. */
export const groundOf = ({ kind }: PlacedPart): 'partFill' | 'bodyFill' => (kind === 'memory' ? 'partFill' : 'bodyFill')

/** What is drawn in ink: the parts that tell one card from another. */
export const inInk = ({ kind }: PlacedPart): boolean => partKinds[kind].onBalls

function refSizePx(part: PlacedPart, text: string, widthPx: number, heightPx: number): number {
  const largest = part.kind === 'core' ? 24 : part.kind === 'memory' ? 18 : 13
  const fitting = Math.min(largest, heightPx * 0.6, widthPx / (0.62 * text.length))
  return fitting < SMALLEST_TEXT_PX && fitting > SMALLEST_TEXT_PX - 1.5 ? SMALLEST_TEXT_PX : Math.floor(fitting * 2) / 2
}

const MOST_OBSTACLES = 150
/** A name that is covered is lost; so much more it counts than a body of which an edge is covered. */
const NAME_WEIGHT = 6
/** What a label's ground takes beside its words. */
const GROUND_PX = 6

/** What free labels keep off: the parts, the largest first, and above all their refs; of the core only its ref. */
export function partObstacles(view: DrawnView, parts: readonly PlacedPart[], measure: MeasureText): Box[] {
  const large = parts.slice(0, MOST_OBSTACLES)
  const bodies = large.filter((part) => part.kind !== 'core').map((part) => boxOn(view, part.box))
  const names = partLabels(view, large, measure).map((label) => widened(label.box, GROUND_PX * view.unit))
  return [...bodies, ...names.flatMap((name) => Array.from({ length: NAME_WEIGHT }, () => name))]
}

const widened = (box: Box, by: number): Box => ({
  minX: box.minX - by,
  minY: box.minY - by,
  maxX: box.maxX + by,
  maxY: box.maxY + by,
})
