/**
 * A drill file as a piece of a board: holes, slots and milled paths. Sources: Ucamco, "The XNC Format Specification", revision
 * 2021.11 (from memory), with the comments that carry Gerber attributes; what older drill files do beside it by common practice.
 */
import { type Point, type Result, say } from '../../../base/index.ts'
import { emptyPiece, type Piece } from '../pieces.ts'
import { linesOf, type NamedText } from '../text.ts'
import { DrillReader } from './commands.ts'

/** Whether a text begins as drill files do: with `M48`, comments and modes before it, or at once with a tool's diameter. */
export function looksLikeDrill(text: string): boolean {
  const lines = text.slice(0, 20_000).split(/\r\n|\n|\r/)
  for (const raw of lines) {
    const line = raw.trim()
    if (line === '' || line.startsWith(';') || /^(%|G90|G91|G05|M71|M72|FMAT,\d)$/.test(line)) continue
    return line === 'M48' || /^T\d+(?:[FSHZB][\d.]+)*C[\d.]+/.test(line)
  }
  return false
}

/** @returns faults by line; holes that do not go through the board, blind and buried ones, are left out */
export function readDrill({ name, text }: NamedText): Result<Piece> {
  const reader = new DrillReader(name)
  for (const line of linesOf(text)) reader.take(line)
  const read = reader.done()
  if (!read.ok) return read
  const { drills, isGuessed } = read.value
  return {
    ok: true,
    value: {
      ...emptyPiece(name, 'drill'),
      drills,
      untold: isGuessed
        ? [say('{name} does not say which zeros of its numbers it leaves out; those in front were taken.', { name })]
        : [],
    },
  }
}

/** The middle of a path. */
export function middleOfPath(path: readonly Point[]): Point {
  const [first, last] = [path[0], path.at(-1)]
  if (first === undefined || last === undefined) return { x: 0, y: 0 }
  return { x: (first.x + last.x) / 2, y: (first.y + last.y) / 2 }
}
