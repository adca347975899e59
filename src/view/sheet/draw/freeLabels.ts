/** All free labels of a pane in one placement: marks first, then rings; each is set clear of parts' refs and badges. */
import type { Box, Point } from '../../../base/index.ts'
import { labelPoints, type Mark, type Ring } from '../../../spill/index.ts'
import { toPane } from '../pure/camera.ts'
import { type LabelRequest, placeLabels, placesAround } from '../pure/labels.ts'
import { type MarkWords, wordsOfMark } from '../pure/words.ts'
import type { Frame } from './frame.ts'
import { symbolBox } from './marks.ts'
import { drawText, type TextStyle, textWidth } from './text.ts'

interface FreeLabel {
  readonly request: LabelRequest
  readonly lines: readonly { readonly text: string; readonly style: TextStyle; readonly height: number }[]
}

/** Room that the scale bar takes in the lower left. */
const FOOT_PX = 34

export function drawFreeLabels(
  frame: Frame,
  marks: readonly Mark[],
  rings: readonly Ring[],
  obstacles: readonly Box[],
  substanceName: (id: string) => string,
): void {
  const here = marks.filter((mark) => mark.side === frame.pane.side)
  const labels = [
    ...here.map((mark) => markLabel(frame, mark, wordsOfMark(mark, substanceName))),
    ...rings.map((ring, i) => ringLabel(frame, ring, i)),
  ]
  const bounds = { minX: 4, minY: 4, maxX: frame.pane.width - 4, maxY: frame.pane.height - FOOT_PX }
  const symbols = here.filter((mark) => mark.kind !== 'dam').map((mark) => symbolBox(frame, mark))
  const places = placeLabels(
    labels.map((label) => label.request),
    [...obstacles, ...symbols],
    bounds,
  )
  for (const { request, lines } of labels) {
    const corner = places.get(request.id)
    if (corner === undefined) continue
    if (request.id.startsWith('mark')) drawPlate(frame, corner, request)
    let y = corner.y
    for (const line of lines) {
      drawText(frame.ctx, line.text, corner.x, y + line.height / 2, line.style)
      y += line.height
    }
  }
}

/** A light ground under a mark's words, so that rings and hatch do not run through them. */
function drawPlate(frame: Frame, corner: Point, request: LabelRequest): void {
  const { ctx, theme } = frame
  ctx.beginPath()
  ctx.roundRect(corner.x - 5, corner.y - 2, request.width + 10, request.height + 4, 5)
  ctx.fillStyle = theme.sheet
  ctx.globalAlpha = 0.78
  ctx.fill()
  ctx.globalAlpha = 1
}

function markLabel(frame: Frame, mark: Mark, words: MarkWords): FreeLabel {
  const { theme, ctx } = frame
  const colour = colourOf(frame, mark)
  const halo = theme.sheet
  const spill = mark.kind === 'spill'
  const lines: FreeLabel['lines'][number][] = [
    {
      text: words.title,
      style: { size: spill ? 16 : 13, weight: spill ? 700 : 500, colour, halo },
      height: spill ? 20 : 17,
    },
  ]
  if (words.detail !== undefined)
    lines.push({ text: words.detail, style: { size: 13, weight: 500, colour, halo }, height: 17 })
  const width = Math.max(...lines.map((line) => textWidth(ctx, line.text, line.style)))
  const height = lines.reduce((sum, line) => sum + line.height, 0)
  const symbol = symbolBox(frame, mark)
  const candidates = [6, 28, 56].flatMap((gap) => placesAround(symbol, width, height, gap))
  return { request: { id: `mark ${mark.id}`, width, height, required: spill, candidates }, lines }
}

function colourOf(frame: Frame, mark: Mark): string {
  const { theme } = frame
  switch (mark.kind) {
    case 'spill':
      return theme.reachText
    case 'clean':
      return theme.cleanText
    case 'residue':
    case 'film':
    case 'corrosion':
      return theme.residueText
    default:
      return theme.ink
  }
}

function ringLabel(frame: Frame, ring: Ring, index: number): FreeLabel {
  const { theme, ctx, transform } = frame
  const style = {
    size: 13,
    weight: ring.solid ? 700 : 500,
    colour: theme.reachText,
    halo: theme.sheet,
  } as const
  const width = textWidth(ctx, ring.label, style)
  const candidates = labelPoints(ring).map((at) => {
    const p = toPane(transform, at)
    return { x: p.x - width / 2, y: p.y - 8 }
  })
  return {
    request: { id: `ring ${index}`, width, height: 16, required: false, candidates },
    lines: [{ text: ring.label, style, height: 16 }],
  }
}
