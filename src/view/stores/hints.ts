/** What the hand can do now, in one line for the foot of the sheet. */
import type { Painting, Selection, Tool } from '../sheet/index.ts'

interface Holding {
  readonly tool: Tool
  readonly painting: Painting
  readonly selection: Selection | undefined
  /** A report's name goes to a part. */
  readonly isNaming: boolean
  readonly isLocked: boolean
  /** Fingers, not a mouse. */
  readonly isCoarse: boolean
}

const MARKED = {
  residue: 'the residue',
  film: 'the film',
  corrosion: 'the corrosion',
  clean: 'the clean spot',
} as const

export function hintOf(holding: Holding): string {
  const { tool, isCoarse, isNaming } = holding
  if (isNaming) return isCoarse ? 'Tap the part of this name' : 'Click the part of this name. Escape puts it back'
  if (tool === 'select') return restingHint(holding)
  const end = isCoarse ? 'Select ends' : holding.isLocked ? 'The tool stays; Escape ends' : 'Escape ends'
  return `${toolHint(holding, isCoarse ? 'Tap' : 'Click')}. ${end}`
}

function restingHint({ selection, isCoarse }: Holding): string {
  if (selection?.kind === 'mark')
    return isCoarse ? 'Drag the mark to move it' : 'Drag the mark, or move it with the arrow keys. Delete removes it'
  return isCoarse
    ? 'Tap a part for its evidence. Two fingers zoom'
    : 'Click a part for its evidence. Drag moves the sheet, the wheel zooms'
}

function toolHint({ tool, painting, isCoarse }: Holding, click: 'Tap' | 'Click'): string {
  switch (tool) {
    case 'spill':
      return `${click} where it landed`
    case 'note':
      return `${click} where the note belongs`
    case 'probe':
      return `${click} where the probe touched`
    case 'dam':
      return `${click} along the dam, twice at its end`
    case 'measure-distance':
      return 'Press at one point and pull to the other'
    case 'slip':
      return 'Press where the tool hit and pull'
    case 'select':
      return ''
    case 'residue':
    case 'film':
    case 'corrosion':
    case 'clean':
      if (painting.manner === 'lasso') return `Draw round ${MARKED[tool]}`
      if (painting.manner === 'circle') return `Press in the middle of ${MARKED[tool]} and pull`
      return isCoarse ? `Paint over ${MARKED[tool]}` : `Paint over ${MARKED[tool]}; [ and ] change the brush`
  }
}
