/**
 * How large a flash of an aperture is: standard shapes, and macros with their expressions. Source: Ucamco, "The Gerber Layer
 * Format Specification", revision 2024.05, 4.4 and 4.5.
 */
import { boxOf, type Point } from '../../../base/index.ts'

/** In units of the file. */
export interface FlashShape {
  readonly width: number
  readonly length: number
  readonly rotationDeg: number
  readonly isRound: boolean
}

/** Statements of a macro: primitives and definitions of variables. */
export type Macro = readonly string[]

const POINT: FlashShape = { width: 0, length: 0, rotationDeg: 0, isRound: true }
const MOST_STATEMENTS = 2000
const MOST_CORNERS = 5000

/** Parameters of a standard template (`C`, `R`, `O`, `P`); undefined for a name that is none. */
export function standardShape(template: string, parameters: readonly number[]): FlashShape | undefined {
  const [a = 0, b = 0, c = 0] = parameters
  if (template === 'C') return { width: a, length: a, rotationDeg: 0, isRound: true }
  if (template === 'R' || template === 'O')
    return { width: a, length: b, rotationDeg: 0, isRound: template === 'O' && a === b }
  return template === 'P' ? { width: a, length: a, rotationDeg: c, isRound: false } : undefined
}

/** The box around a macro; a lone rectangle keeps its turn. */
export function macroShape(macro: Macro, parameters: readonly number[]): FlashShape {
  const variables = new Map(parameters.map((value, i) => [i + 1, value]))
  const points: Point[] = []
  let lone: FlashShape | undefined
  let primitives = 0
  for (const statement of macro.slice(0, MOST_STATEMENTS)) {
    const definition = /^\$(\d+)\s*=(.*)$/.exec(statement)
    if (definition !== null) {
      variables.set(Number(definition[1]), valueOf(definition[2] ?? '', variables))
      continue
    }
    if (/^0(\s|$)/.test(statement)) continue
    const numbers = statement
      .split(',')
      .slice(0, MOST_CORNERS * 2)
      .map((word) => valueOf(word, variables))
    primitives++
    lone = loneRectangle(numbers)
    points.push(...cornersOf(numbers))
  }
  if (primitives === 1 && lone !== undefined) return lone
  if (points.length === 0) return POINT
  const box = boxOf(points)
  return { width: box.maxX - box.minX, length: box.maxY - box.minY, rotationDeg: 0, isRound: false }
}

const [CIRCLE, OUTLINE, POLYGON, MOIRE, THERMAL, VECTOR, CENTRE_LINE, CORNER_LINE] = [1, 4, 5, 6, 7, 20, 21, 22]

function loneRectangle([code, , width = 0, length = 0, x = 0, y = 0, rotationDeg = 0]: readonly number[]):
  | FlashShape
  | undefined {
  if (code !== CENTRE_LINE || x !== 0 || y !== 0) return undefined
  return { width, length, rotationDeg, isRound: false }
}

/** Corners of the box around a primitive, turned about the origin as macros turn. */
function cornersOf(numbers: readonly number[]): Point[] {
  const [code, a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = numbers
  if (code === CIRCLE) return turned(around({ x: c, y: d }, b / 2, b / 2), e)
  if (code === VECTOR) {
    const [, , width = 0, x1 = 0, y1 = 0, x2 = 0, y2 = 0, turn = 0] = numbers
    const line = [...around({ x: x1, y: y1 }, width / 2, width / 2), ...around({ x: x2, y: y2 }, width / 2, width / 2)]
    return turned(line, turn)
  }
  if (code === CENTRE_LINE) return turned(around({ x: d, y: e }, b / 2, c / 2), f)
  if (code === CORNER_LINE) return turned(around({ x: d + b / 2, y: e + c / 2 }, b / 2, c / 2), f)
  if (code === OUTLINE) {
    const count = Math.max(0, Math.min(MOST_CORNERS, Math.floor(b)))
    const corners = Array.from({ length: count }, (_, i) => ({
      x: numbers[3 + 2 * i] ?? 0,
      y: numbers[4 + 2 * i] ?? 0,
    }))
    return turned(corners, numbers[5 + 2 * count] ?? 0)
  }
  if (code === POLYGON) return around({ x: c, y: d }, e / 2, e / 2)
  if (code === MOIRE || code === THERMAL) return around({ x: a, y: b }, c / 2, c / 2)
  return []
}

const around = ({ x, y }: Point, halfX: number, halfY: number): Point[] => [
  { x: x - halfX, y: y - halfY },
  { x: x + halfX, y: y - halfY },
  { x: x + halfX, y: y + halfY },
  { x: x - halfX, y: y + halfY },
]

function turned(points: readonly Point[], deg: number): Point[] {
  const [cos, sin] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)]
  return points.map(({ x, y }) => ({ x: x * cos - y * sin, y: x * sin + y * cos }))
}

type Variables = ReadonlyMap<number, number>

/** `1.5`, `$1+$2`, `($1-0.2)x2`: sums of products; what can't be read counts as nothing. */
function valueOf(expression: string, variables: Variables): number {
  const tokens = expression.match(/\d+\.?\d*|\.\d+|\$\d+|[-+xX/()]/g) ?? []
  const reader = { tokens, at: 0 }
  const value = sumOf(reader, variables, 0)
  return Number.isFinite(value) ? value : 0
}

interface Reader {
  readonly tokens: readonly string[]
  at: number
}

const DEEPEST = 50

function sumOf(reader: Reader, variables: Variables, depth: number): number {
  let sum = productOf(reader, variables, depth)
  for (let sign = reader.tokens[reader.at]; sign === '+' || sign === '-'; sign = reader.tokens[reader.at]) {
    reader.at++
    const next = productOf(reader, variables, depth)
    sum += sign === '+' ? next : -next
  }
  return sum
}

function productOf(reader: Reader, variables: Variables, depth: number): number {
  let product = factorOf(reader, variables, depth)
  for (let sign = reader.tokens[reader.at] ?? ''; /^[xX/]$/.test(sign); sign = reader.tokens[reader.at] ?? '') {
    reader.at++
    const next = factorOf(reader, variables, depth)
    product = sign === '/' ? product / next : product * next
  }
  return product
}

function factorOf(reader: Reader, variables: Variables, depth: number): number {
  const token = reader.tokens[reader.at++]
  if (token === undefined || depth > DEEPEST) return 0
  if (token === '-') return -factorOf(reader, variables, depth + 1)
  if (token === '+') return factorOf(reader, variables, depth + 1)
  if (token === '(') {
    const value = sumOf(reader, variables, depth + 1)
    if (reader.tokens[reader.at] === ')') reader.at++
    return value
  }
  return token.startsWith('$') ? (variables.get(Number(token.slice(1))) ?? 0) : Number(token)
}
