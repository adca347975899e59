/** The tool in the hand: one at a time, whoever asks for it. */
import type { Tool } from '../sheet/index.ts'
import type { Desk } from '../stores/desk.ts'
import { isMarkKind, toolStoreOf } from '../stores/toolStore.ts'

/** Takes up a tool; a name of a report that was in the hand is put back. */
export function takeTool(desk: Desk, tool: Tool): void {
  if (isMarkKind(tool)) toolStoreOf(desk).setState({ markKind: tool })
  desk.screen.setState(({ naming }) => ({ tool, naming: { ...naming, held: undefined, aimed: undefined } }))
}

/** Takes up a tool, or puts it down where it is in the hand already. */
export const toggleTool = (desk: Desk, tool: Tool): void =>
  takeTool(desk, desk.screen.getState().tool === tool ? 'select' : tool)

/** The tools of the bar. A mark is of the kind that was marked last. */
export type BarTool = 'select' | 'spill' | 'mark' | 'dam' | 'note' | 'measure-distance'

export const barTools: readonly { readonly tool: BarTool; readonly key: string }[] = [
  { tool: 'select', key: 'V' },
  { tool: 'spill', key: 'S' },
  { tool: 'mark', key: 'M' },
  { tool: 'dam', key: 'D' },
  { tool: 'note', key: 'N' },
  { tool: 'measure-distance', key: 'R' },
]

export const LOCK_KEY = 'L'

export const takeBarTool = (desk: Desk, tool: BarTool): void =>
  takeTool(desk, tool === 'mark' ? toolStoreOf(desk).getState().markKind : tool)

/** Which of the bar's tools is in the hand. */
export function barToolOf(tool: Tool): BarTool | undefined {
  if (isMarkKind(tool)) return 'mark'
  return tool === 'probe' ? undefined : tool
}

export const switchLock = (desk: Desk): void => toolStoreOf(desk).setState(({ isLocked }) => ({ isLocked: !isLocked }))

const BRUSH_STEP = 1.25
const [SMALLEST_MM, LARGEST_MM] = [0.2, 50] as const

/** @param direction 1 for a larger brush, -1 for a smaller one */
export function resizeBrush(desk: Desk, direction: 1 | -1): void {
  desk.screen.setState(({ painting }) => {
    const sized = painting.brushMm * BRUSH_STEP ** direction
    const brushMm = Math.min(LARGEST_MM, Math.max(SMALLEST_MM, Math.round(sized * 10) / 10))
    return { painting: { ...painting, brushMm } }
  })
}

/** @returns whether the key is one of the tool bar: a letter, or a bracket for the size of a brush in the hand */
export function pressToolKey(desk: Desk, key: string): boolean {
  const letter = key.toUpperCase()
  const found = barTools.find((entry) => entry.key === letter)
  if (found !== undefined) takeBarTool(desk, found.tool)
  else if (letter === LOCK_KEY) switchLock(desk)
  else if ((key === '[' || key === ']') && paintsByBrush(desk)) resizeBrush(desk, key === ']' ? 1 : -1)
  else return false
  return true
}

function paintsByBrush(desk: Desk): boolean {
  const { tool, painting } = desk.screen.getState()
  return isMarkKind(tool) && tool !== 'slip' && painting.manner === 'brush'
}
