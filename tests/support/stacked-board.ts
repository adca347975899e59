/** A card whose memory stands beside the core's die: two stacks of eight channels on U1, made from a pattern. */
import { boardFromPattern, type BoardModel, usualSupplies } from '../../src/board/index.ts'

let made: BoardModel | undefined

export function stackedBoard(): BoardModel {
  if (made !== undefined) return made
  const name = 'stack-8x128'
  const board = boardFromPattern({
    name: 'two stacks',
    busBits: 2048,
    package: name,
    sides: 'one',
    supplies: usualSupplies(name, 2048),
  })
  if (!board.ok) throw new Error(JSON.stringify(board.faults))
  made = board.value
  return made
}
