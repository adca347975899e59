/** Foreign names taken apart: which number, letter or half each of them says, such as 3 and `low` of `C3 low`. */
import { plainLabel } from '../labels.ts'

/** Where a name stands in its family: package number first, then what is inside. */
export interface Coordinates {
  readonly name: string
  readonly at: readonly number[]
}

export interface Family {
  readonly names: readonly Coordinates[]
  /** How many coordinates each name has. */
  readonly depth: number
}

const HALVES: readonly (readonly [RegExp, number])[] = [
  [/^(?:low|lower|lo|l|unten|untere|bas|basse|bajo|baja|even|first)$/i, 0],
  [/^(?:high|higher|upper|hi|h|up|oben|obere|haut|haute|alto|alta|odd|second)$/i, 1],
]

/**
 * Takes names of one kind apart, in the likelier way first: by what varies alone, then with the numbers that all share.
 * Names of several kinds (`C3 low` beside `bank 2 a b`) make no family.
 */
export function familiesOf(names: readonly string[]): Family[] {
  const pieces = withHalfLetters(names.map(piecesOf))
  const [first] = pieces
  if (first === undefined || pieces.some((one) => one.length !== first.length)) return []
  const places = first.map((_, i) => i)
  const varying = places.filter((i) => pieces.some((one) => one[i]?.text !== first[i]?.text))
  const numbers = places.filter((i) => pieces.every((one) => isCounted(one[i]?.text ?? '')))
  const both = places.filter((i) => varying.includes(i) || numbers.includes(i))
  const ways = varying.length === both.length ? [both] : [varying, both]
  return ways.flatMap((telling) => {
    const isTold = telling.every((i) => pieces.every((one) => one[i]?.value !== undefined))
    if (telling.length === 0 || telling.length > MOST_COORDINATES || !isTold) return []
    return [
      {
        names: names.map((name, n) => ({ name, at: telling.map((i) => pieces[n]?.[i]?.value ?? 0) })),
        depth: telling.length,
      },
    ]
  })
}

const MOST_COORDINATES = 3
const isCounted = (text: string): boolean => /^\d+$/.test(text) || isHalfWord(text)

interface Piece {
  readonly text: string
  readonly value: number | undefined
}

/** Words and numbers in their order: `C3 low` is `c`, 3, `low`. A letter alone counts from A. */
function piecesOf(name: string): Piece[] {
  const pieces = name.toLowerCase().match(/\p{L}+|\d+/gu) ?? [plainLabel(name)]
  return pieces.map((text) => ({ text, value: valueOf(text) }))
}

/** `L` and `H` beside each other, and no other letter, are low and high. */
function withHalfLetters(names: readonly (readonly Piece[])[]): readonly (readonly Piece[])[] {
  const isHalf = (i: number): boolean => {
    const texts = new Set(names.map((pieces) => pieces[i]?.text))
    return texts.size === 2 && texts.has('l') && texts.has('h')
  }
  return names.map((pieces) =>
    pieces.map((piece, i) => (isHalf(i) ? { ...piece, value: piece.text === 'l' ? 0 : 1 } : piece)),
  )
}

/** It tells one of two halves: `low`, `upper`. */
export const isHalfWord = (text: string): boolean => text.length > 1 && HALVES.some(([words]) => words.test(text))

function valueOf(text: string): number | undefined {
  if (/^\d+$/.test(text)) return Number(text)
  const half = HALVES.find(([words]) => text.length > 1 && words.test(text))?.[1]
  if (half !== undefined) return half
  return /^[a-z]$/.test(text) ? text.charCodeAt(0) - 97 : undefined
}
