/** A shipped board as a model, for tests. */
import { readFileSync } from 'node:fs'
import { sayFault } from '../../src/base/index.ts'
import { type BoardModel, readBoard } from '../../src/board/index.ts'

export const SHIPPED = ['bowline-8', 'hitch-12', 'splice-6', 'cleat-10', 'sheet-bend-16'] as const

export function shippedBoard(name: string): BoardModel {
  const board = readBoard(readFileSync(`boards/${name}.json`, 'utf8'))
  if (!board.ok) throw new Error(board.faults.map(sayFault).join('\n'))
  return board.value
}
