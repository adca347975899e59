/** Looks for a code in a picture of a camera. */
import { decodeQR } from 'qr/decode.js'
import { type ReadCode, readCode } from '../../case/index.ts'

/** Per picture; the next one is as good. */
const MOST_MS = 60

/** @returns undefined where there is nothing to read */
export function codeIn(canvas: HTMLCanvasElement): ReadCode | undefined {
  const picture = canvas.getContext('2d')?.getImageData(0, 0, canvas.width, canvas.height)
  if (picture === undefined) return undefined
  try {
    return readCode(decodeQR(picture, { effort: Infinity, timeLimit: MOST_MS }))
  } catch {
    return undefined
  }
}
