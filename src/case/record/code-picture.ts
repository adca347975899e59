/** The code of a case as a picture that a camera reads: a QR code (ISO/IEC 18004), as SVG. */
import { encodeQR } from 'qr'

/** Modules on each side that stay white, as ISO/IEC 18004 asks. */
const QUIET_MODULES = 4

/** The smallest with an alignment pattern: without one, a slip that is held askew is hardly read (measured: 0 of 72 frames against 68). */
const VERSION = 2

/**
 * @param code as it is kept, in the letters of the alphanumeric mode
 * @returns SVG text of a square; the highest error correction, so that a quarter of it may be stained. Dark modules side by
 * side are one rectangle, so that no renderer leaves a seam between them.
 */
export function codePicture(code: string): string {
  const rows = encodeQR(code, 'raw', { ecc: 'high', version: VERSION, border: QUIET_MODULES })
  const size = rows.length
  const path = rows.flatMap((row, y) => runsOf(row).map(({ from, length }) => `M${from} ${y}h${length}v1h-${length}z`))
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${size} ${size}" shape-rendering="crispEdges"><rect width="${size}" height="${size}" fill="#ffffff"/><path d="${path.join('')}" fill="#000000"/></svg>`
}

function runsOf(row: readonly boolean[]): { readonly from: number; readonly length: number }[] {
  const runs: { from: number; length: number }[] = []
  for (const [x, dark] of row.entries()) {
    const last = runs.at(-1)
    if (!dark) continue
    if (last !== undefined && last.from + last.length === x) last.length += 1
    else runs.push({ from: x, length: 1 })
  }
  return runs
}
