/** How a Gerber file writes coordinates: its unit, its digits and whether they count from the last point. */
import type { Point } from '../../../base/index.ts'
import { type Digits, digitsRead } from '../digits.ts'

export interface Coordinates {
  readonly x?: string | undefined
  readonly y?: string | undefined
  readonly i?: string | undefined
  readonly j?: string | undefined
}

/**
 * `X100Y200I5J0D01`: each letter once, in any order.
 * @returns undefined for a word that is anything else
 */
export function operationIn(word: string): { readonly to: Coordinates; readonly code: number | undefined } | undefined {
  if (!/^(?:[XYIJ][+-]?\d{1,15}|D0*[123](?!\d))+$/.test(word)) return undefined
  const codes = [...word.matchAll(/([XYIJD])([+-]?\d+)/g)].map(
    ([, letter = '', digits = '']) => [letter, digits] as const,
  )
  const byLetter = new Map(codes)
  if (byLetter.size < codes.length) return undefined
  const [x, y, i, j, code] = ['X', 'Y', 'I', 'J', 'D'].map((letter) => byLetter.get(letter))
  return { to: { x, y, i, j }, code: code === undefined ? undefined : Number(code) }
}

export class NumberFormat {
  mmPerUnit: number | undefined
  isIncremental = false
  private digits: { readonly x: Digits; readonly y: Digits } | undefined
  private keepsLeading = false

  get isKnown(): boolean {
    return this.mmPerUnit !== undefined && this.digits !== undefined
  }

  /** `FSLAX46Y46`: zeros left out in front, places from the origin, 4 whole digits and 6 decimals. @returns whether it is one */
  take(text: string): boolean {
    const format = /^FS([LTD]?)([AI]?)(?:N\d)?(?:G\d)?X(\d)(\d)Y(\d)(\d)(?:D\d)?(?:M\d)?$/.exec(text)
    if (format === null) return false
    const [, zeros, notation, xWhole, xPart, yWhole, yPart] = format
    this.keepsLeading = zeros === 'T'
    this.isIncremental = notation === 'I'
    this.digits = {
      x: { whole: Number(xWhole), decimals: Number(xPart) },
      y: { whole: Number(yWhole), decimals: Number(yPart) },
    }
    return true
  }

  /** Where an operation ends; a coordinate that is left out stays. */
  place({ x, y }: Coordinates, last: Point): Point {
    const before = this.isIncremental ? last : { x: 0, y: 0 }
    return {
      x: x === undefined ? last.x : before.x + this.length(x, 'x'),
      y: y === undefined ? last.y : before.y + this.length(y, 'y'),
    }
  }

  /** In mm; nothing for digits that are left out. */
  length(digits: string | undefined, axis: 'x' | 'y'): number {
    if (digits === undefined) return 0
    const format = this.digits?.[axis] ?? { whole: 0, decimals: 0 }
    return digitsRead(digits, format, this.keepsLeading) * (this.mmPerUnit ?? 1)
  }
}
