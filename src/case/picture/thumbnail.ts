/** A board as a small picture: edge, lanes and the parts that tell one card from another, as paths of SVG. No colours. */
import type { Point } from '../../base/index.ts'
import { type BoardModel, type PlacedPart, standsOnBoard } from '../../board/index.ts'
import { closedPath, openPath, paperFor } from './svg.ts'

export interface ThumbnailPart {
  /** `behind`: a memory package of the bottom, seen through the board. `stack`: a memory on the core. */
  readonly kind: 'core' | 'memory' | 'behind' | 'other' | 'stack'
  readonly path: string
}

export interface Thumbnail {
  /** Of the paper, in mm: one unit of the paths. */
  readonly widthMm: number
  readonly heightMm: number
  readonly edge: string
  /** Empty where no lane is known. */
  readonly lanes: string
  /** In the order in which they are drawn. */
  readonly parts: readonly ThumbnailPart[]
}

const MARGIN_MM = 3
/** Smaller parts are dust at this size. */
const LEAST_MM = 2.5
/** What is behind is drawn this far down and to the right, so that it shows beside what stands before it. */
const BEHIND_MM = 2.2

/** The top side of a board; memory on the bottom shows behind it. */
export function thumbnailOf(model: BoardModel): Thumbnail {
  const paper = paperFor(model.box, 'top', MARGIN_MM)
  const drawn = (part: PlacedPart): ThumbnailPart[] => {
    const kind = kindOf(part)
    if (kind === undefined) return []
    const outline = kind === 'behind' ? part.outline.map(shifted) : part.outline
    return [{ kind, path: closedPath(paper, [outline]) }]
  }
  return {
    widthMm: paper.widthMm,
    heightMm: paper.heightMm,
    edge: closedPath(paper, [model.outline, ...model.cutouts]),
    lanes: model.corridors
      .filter(({ side }) => side === 'top')
      .map(({ path }) => openPath(paper, path))
      .join(''),
    parts: model.parts.flatMap(drawn).toSorted((a, b) => ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind)),
  }
}

const ORDER: readonly ThumbnailPart['kind'][] = ['other', 'behind', 'memory', 'core', 'stack']

const shifted = ({ x, y }: Point): Point => ({ x: x + BEHIND_MM, y: y - BEHIND_MM })

function kindOf(part: PlacedPart): ThumbnailPart['kind'] | undefined {
  const { kind, side, widthMm, lengthMm } = part
  if (!standsOnBoard(part) && side === 'top') return 'stack'
  if (kind === 'memory') return side === 'top' ? 'memory' : 'behind'
  if (side === 'bottom' || Math.min(widthMm, lengthMm) < LEAST_MM) return undefined
  return kind === 'core' ? 'core' : 'other'
}
