/** What one position of the hand costs while a part is dragged on the largest shipped board, beside loading that board. */
import { readFileSync } from 'node:fs'
import { applyEdit, boardFaults, boardSchema, createSnapper, loadBoard, overlapsOf } from '../../src/board/index.ts'

const POSITIONS = 120

export function benchEdit(): object {
  const board = boardSchema.parse(JSON.parse(readFileSync('boards/hitch-12.json', 'utf8')))
  const snap = createSnapper(board, ['U13'])
  const moveMs: number[] = []
  const checkMs: number[] = []
  const loadMs: number[] = []
  for (let i = 0; i < POSITIONS; i++) {
    const begun = performance.now()
    const { byMm } = snap({ byMm: { x: i * 0.21, y: i * 0.13 }, gridMm: 0.5, withinMm: 0.8 })
    const moved = applyEdit(board, { kind: 'move', refs: ['U13'], byMm })
    const held = performance.now()
    if (!moved.ok) throw new Error('the part could not be moved')
    boardFaults(moved.value)
    overlapsOf(moved.value)
    const checked = performance.now()
    if (i % 4 === 0) {
      loadBoard(moved.value)
      loadMs.push(performance.now() - checked)
    }
    moveMs.push(held - begun)
    checkMs.push(checked - held)
  }
  return {
    what: `a part dragged over ${POSITIONS} positions of hitch-12 (${board.parts.length} parts): each put in line and checked`,
    snapAndMoveMs: share(moveMs, 0.5),
    checkMs: share(checkMs, 0.5),
    check95Ms: share(checkMs, 0.95),
    loadMs: share(loadMs, 0.5),
    checkOverLoad: Math.round((share(checkMs, 0.5) / share(loadMs, 0.5)) * 100) / 100,
  }
}

/** The value that so much of all lie below, to a tenth. */
const share = (values: readonly number[], part: number): number =>
  Math.round((values.toSorted((a, b) => a - b)[Math.floor(values.length * part)] ?? 0) * 10) / 10
