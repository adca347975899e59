/** A board of one's own as a file that any other Liftmap opens. */
import type { BoardDescription } from '../../board/index.ts'
import { saveFile } from '../actions/saveFile.ts'

const fileNameOf = (name: string): string =>
  name
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, '-')
    .replaceAll(/^-+|-+$/g, '') || 'board'

/** @param number of the version, which stands in the file's name; left out for a board without versions */
export function exportBoard(board: BoardDescription, number?: number): void {
  const version = number === undefined ? '' : `-version-${number}`
  const text = `${JSON.stringify(board, undefined, 1)}\n`
  saveFile(`${fileNameOf(board.name)}${version}.board.json`, new Blob([text], { type: 'application/json' }))
}
