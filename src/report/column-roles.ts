/** What each role of a column means: one entry a role, which the compiler asks for. */
import type { ColumnRole } from './recipe.ts'

interface RoleFacts {
  /** Its cells are numbers, which a base is chosen for. */
  readonly isNumber: boolean
  /** Its cells name a place of the board. */
  readonly isLabel: boolean
  /** A row is one also without it. */
  readonly mayLack: boolean
  /** Where the fast reader puts it; only the plain one reads the rest. */
  readonly slot: 1 | 2 | 3 | 4 | 5 | undefined
}

const plain = { isNumber: false, isLabel: false, mayLack: false, slot: undefined } as const
const number = { ...plain, isNumber: true } as const
const label = { ...plain, isLabel: true } as const

export const columnRoles = {
  address: { ...number, slot: 1 },
  expected: { ...number, slot: 2 },
  actual: { ...number, slot: 3 },
  difference: { ...number, slot: 4 },
  count: { ...number, slot: 5 },
  part: label,
  channel: label,
  lane: label,
  bit: number,
  bits: plain,
  end: number,
  tested: { ...number, mayLack: true },
  status: { ...plain, mayLack: true },
  packages: label,
  ignore: plain,
} as const satisfies Record<ColumnRole, RoleFacts>
