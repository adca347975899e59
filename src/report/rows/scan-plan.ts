/** A plan made ready for the byte kernel: what each byte is, and which cell is which number. */
import { columnRoles } from '../column-roles.ts'
import type { EvenShape } from './even-rows.ts'
import { type EvenLoop, type EvenMemory } from './even-wasm.ts'
import type { BitSource, Plan } from './recipe-plan.ts'

/** What a byte is to the kernel. */
export const PLAIN = 0
export const BLANK = 1
export const DELIMITER = 2
export const LINE_END = 3
export const UNSURE = 4

/** In `decimal`: no number without 0x. */
export const PREFIXED = 2

/** Places of the numbers of a row. */
export const SLOT = {
  address: columnRoles.address.slot,
  expected: columnRoles.expected.slot,
  actual: columnRoles.actual.slot,
  difference: columnRoles.difference.slot,
  count: columnRoles.count.slot,
} as const
const SLOT_PLACES = 6

export const HEX_VALUE = Uint8Array.from({ length: 256 }, (_, code) => {
  const value = Number.parseInt(String.fromCharCode(code), 16)
  return code < 128 && !Number.isNaN(value) ? value : 255
})
const marksTable = (marks: string) =>
  Uint8Array.from({ length: 256 }, (_, c) => Number(marks.includes(String.fromCharCode(c))))
export const OPENING = marksTable('([{<"\'')
export const CLOSING = marksTable(')]}>"\':;,.')

export interface ScanPlan {
  readonly bits: BitSource
  readonly addressUnitBytes: number
  /** For each byte, what it is. */
  readonly classes: Uint8Array
  /** The class that may repeat before a cell: blanks, or the delimiter itself when it is a run of blanks. */
  readonly leading: number
  /** In a cell that is not used, the highest class that still belongs to it. */
  readonly inside: number
  /** For each cell up to the last that is used: its slot (0: not used), and whether bare digits are decimal. */
  readonly slots: Uint8Array
  readonly decimal: Uint8Array
  readonly low: Int32Array
  readonly high: Int32Array
  /** Bytes of the shortest line taken so far, its line break not counted. */
  shortestRow: number
  /** What the last rows had in common, and how many rows to read one by one before looking for it again. */
  shape: EvenShape | undefined
  /** The loop of that shape, once it is worth one. */
  loop: EvenLoop | undefined
  loopsCompiled: number
  readonly even: EvenMemory | undefined
  patience: number
}

/**
 * A plan for the kernel, or undefined where only the plain reader will do.
 * @param even memory for compiled loops; without it none is compiled
 */
export function compileScan(plan: Plan, even: EvenMemory | undefined): ScanPlan | undefined {
  const { layout, addressUnitBytes } = plan.recipe
  if (plan.level !== 'words' || (layout.kind !== 'delimited' && layout.kind !== 'spaced')) return undefined
  if (layout.kind === 'spaced' && layout.bytesPerWord !== undefined) return undefined
  if (plan.columns.some((column) => column.base === 'bytes')) return undefined
  if (plan.recipe.record !== undefined || plan.tables.length > 0 || plan.heads.length > 0) return undefined
  const indices = plan.columns.map((column) => Number(column.at))
  const known = plan.columns.every((column) => columnRoles[column.role].slot !== undefined)
  if (!known || new Set(indices).size < indices.length) return undefined
  const classes = layout.kind === 'spaced' ? spacedClasses() : delimitedClasses(layout.delimiter, layout.quote)
  if (classes === undefined || !leavesTexts(classes, plan.recipe.skipLinesWith)) return undefined
  const cells = Math.max(...indices) + 1
  const slots = new Uint8Array(cells)
  const decimal = new Uint8Array(cells)
  for (const column of plan.columns) {
    slots[Number(column.at)] = columnRoles[column.role].slot ?? 0
    decimal[Number(column.at)] = column.base === 'hex' ? 0 : column.base === 'prefixed' ? PREFIXED : 1
  }
  return {
    bits: plan.bits,
    addressUnitBytes,
    classes,
    leading: layout.kind === 'spaced' ? DELIMITER : BLANK,
    inside: layout.kind === 'spaced' ? PLAIN : BLANK,
    slots,
    decimal,
    low: new Int32Array(SLOT_PLACES),
    high: new Int32Array(SLOT_PLACES),
    shortestRow: Number.POSITIVE_INFINITY,
    shape: undefined,
    loop: undefined,
    loopsCompiled: 0,
    // In its memory each row counts as 1 error.
    even: slots.includes(SLOT.count) ? undefined : even,
    patience: 1,
  }
}

const ROW_BYTES = marksTable('0123456789abcdefABCDEFxX \t\r\n_.:')

/**
 * Lines with a text to pass over are left to the plain reader: what is no part of a number stops the kernel.
 * @returns false where a text could stand in a row of numbers
 */
function leavesTexts(classes: Uint8Array, texts: readonly string[]): boolean {
  if (texts.length === 0) return true
  const isOutside = (code: number): boolean => code > 127 || (ROW_BYTES[code] === 0 && classes[code] === PLAIN)
  const encoder = new TextEncoder()
  if (!texts.every((text) => encoder.encode(text).some(isOutside))) return false
  for (let code = 0; code < 256; code++) if (isOutside(code)) classes[code] = UNSURE
  return true
}

function baseClasses(): Uint8Array {
  const classes = new Uint8Array(256)
  classes[10] = LINE_END
  classes[13] = LINE_END
  classes[27] = UNSURE
  return classes
}

function spacedClasses(): Uint8Array {
  const classes = baseClasses()
  classes[32] = DELIMITER
  classes[9] = DELIMITER
  return classes
}

function delimitedClasses(delimiter: string, quote: string | undefined): Uint8Array | undefined {
  const marks = [delimiter.charCodeAt(0), ...(quote === undefined ? [] : [quote.charCodeAt(0)])]
  // A digit, an x or a letter of a hexadecimal number as a delimiter is possible, but not worth a fast path.
  if (marks.some((code) => code > 126 || /[0-9A-Za-z\r\n]/.test(String.fromCharCode(code)))) return undefined
  const classes = baseClasses()
  classes[32] = BLANK
  classes[9] = BLANK
  if (quote !== undefined) classes[quote.charCodeAt(0)] = UNSURE
  classes[delimiter.charCodeAt(0)] = DELIMITER
  return classes
}
