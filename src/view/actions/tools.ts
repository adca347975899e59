/** The tool in the hand: one at a time, whoever asks for it. */
import type { Tool } from '../sheet/index.ts'
import type { Desk } from '../stores/desk.ts'

/** Takes up a tool; a name of a report that was in the hand is put back. */
export const takeTool = (desk: Desk, tool: Tool): void =>
  desk.screen.setState(({ naming }) => ({ tool, naming: { ...naming, held: undefined, aimed: undefined } }))

/** Takes up a tool, or puts it down where it is in the hand already. */
export const toggleTool = (desk: Desk, tool: Tool): void =>
  takeTool(desk, desk.screen.getState().tool === tool ? 'select' : tool)
