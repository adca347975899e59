/**
 * Records of IPC-D-356, IPC-D-356A and B: which columns hold what. Source: IPC-D-356A, "Bare Substrate Electrical Test Data
 * Format", 1998, section 8, columns as open readers and writers agree on them; blanks stand for leading zeros.
 */
import type { Point } from '../../../base/index.ts'

export interface TestRecord {
  /** 317 through hole, 327 surface, 307 blind or buried via, 367 unplated hole … */
  readonly code: string
  /** At most 14 letters, `N/C` for none. */
  readonly net: string
  /** At most 6 letters; `VIA` for a via. */
  readonly ref: string
  readonly pin: string
  readonly holeDiameter: number | undefined
  readonly isPlated: boolean
  /** 0 both sides, 1 the first, else the layer or side that can be reached. */
  readonly access: number
  readonly at: Point
  readonly width: number
  readonly length: number
  readonly rotation: number
}

const [NET, REF, PIN, REST] = [3, 20, 27, 31]
/** 80 columns and what their continuation adds. */
const LONGEST = 200
const HOLE = /^.?\s*D\s*(\d{1,6})\s*([PU])?/
const PLACE =
  /(?:A\s*(\d{1,2}))?\s*X([+-]?)\s*(\d{1,9})\s*Y([+-]?)\s*(\d{1,9})\s*(?:X\s*(\d{1,6}))?\s*(?:Y\s*(\d{1,6}))?\s*(?:R\s*(-?\d{1,4}))?/

/** @returns undefined where the record has no coordinates */
export function testRecord(line: string): TestRecord | undefined {
  const rest = line.slice(REST, LONGEST)
  const hole = HOLE.exec(rest)
  const place = PLACE.exec(rest)
  if (place === null) return undefined
  const signed = (sign = '', digits = ''): number => (sign === '-' ? 0 - Number(digits) : Number(digits))
  const width = Number(place[6] ?? 0)
  return {
    code: line.slice(0, NET),
    net: line.slice(NET, REF).trim(),
    ref: line.slice(REF, PIN - 1).trim(),
    pin: line.slice(PIN, REST).trim(),
    holeDiameter: hole === null ? undefined : Number(hole[1]),
    isPlated: hole?.[2] !== 'U',
    access: Number(place[1] ?? 0),
    at: { x: signed(place[2], place[3]), y: signed(place[4], place[5]) },
    width,
    length: Number(place[7] ?? 0),
    rotation: Number(place[8] ?? 0),
  }
}

/** Corners of a 389 record: X and Y stay until they change, a star begins another line. */
export function outlineRuns(text: string): Point[][] {
  return text.split('*').flatMap((line) => {
    let [x, y] = [NaN, NaN]
    const corners: Point[] = []
    for (const [, both, bothX, bothY, lone, axis, digits] of line.matchAll(CORNER)) {
      if (both !== undefined) [x, y] = [whole(bothX), whole(bothY)]
      else if (lone !== undefined && axis === 'X') x = whole(digits)
      else if (lone !== undefined) y = whole(digits)
      if (Number.isFinite(x) && Number.isFinite(y)) corners.push({ x, y })
    }
    return corners.length > 1 ? [corners] : []
  })
}

const CORNER = /(X([+-]? {0,8}\d{1,9})Y([+-]? {0,8}\d{1,9}))|(([XY])([+-]? {0,8}\d{1,9}))/g
const whole = (digits = ''): number => Number(digits.replaceAll(/\s/g, ''))
