/** What the hand can do now, in one line for the foot of the sheet. */
import { say } from '../../base/index.ts'
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
  residue: say('the residue'),
  film: say('the film'),
  corrosion: say('the corrosion'),
  clean: say('the clean spot'),
} as const

export function hintOf(holding: Holding): string {
  const { tool, isCoarse, isNaming } = holding
  if (isNaming)
    return isCoarse ? say('Tap the part of this name') : say('Click the part of this name. Escape puts it back')
  if (tool === 'select') return restingHint(holding)
  const end = isCoarse ? say('Select ends') : holding.isLocked ? say('The tool stays; Escape ends') : say('Escape ends')
  return `${toolHint(holding, isCoarse ? 'Tap' : 'Click')}. ${end}`
}

function restingHint({ selection, isCoarse }: Holding): string {
  if (selection?.kind === 'mark')
    return isCoarse
      ? say('Drag the mark to move it')
      : say('Drag the mark, or move it with the arrow keys. Delete removes it')
  return isCoarse
    ? say('Tap a part for its evidence. Two fingers zoom')
    : say('Click a part for its evidence. Drag moves the sheet, the wheel zooms')
}

function toolHint({ tool, painting, isCoarse }: Holding, click: 'Tap' | 'Click'): string {
  switch (tool) {
    case 'spill':
      return say('{click} where it landed', { click })
    case 'note':
      return say('{click} where the note belongs', { click })
    case 'probe':
      return say('{click} where the probe touched', { click })
    case 'dam':
      return say('{click} along the dam, twice at its end', { click })
    case 'measure-distance':
      return say('Press at one point and pull to the other')
    case 'slip':
      return say('Press where the tool hit and pull')
    case 'select':
      return ''
    case 'residue':
    case 'film':
    case 'corrosion':
    case 'clean':
      if (painting.manner === 'lasso') return say('Draw round {MARKED}', { MARKED: MARKED[tool] })
      if (painting.manner === 'circle') return say('Press in the middle of {MARKED} and pull', { MARKED: MARKED[tool] })
      return isCoarse
        ? say('Paint over {MARKED}', { MARKED: MARKED[tool] })
        : say('Paint over {MARKED}; [ and ] change the brush', { MARKED: MARKED[tool] })
  }
}
