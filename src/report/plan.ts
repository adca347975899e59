/** A recipe checked and made ready: which column gives what, and which kind of rows comes out. */
import { bad, type Fault, good, type Result } from '../base/index.ts'
import { type CellReader, compileCells } from './cells.ts'
import type { Column, ColumnRole, Recipe } from './recipe.ts'

/** Where the failing bits of a row come from. */
export type BitSource = 'expected+actual' | 'expected+difference' | 'actual+difference' | 'difference' | 'bit' | 'none'

export interface Plan {
  readonly recipe: Recipe
  readonly level: 'words' | 'labels'
  readonly bits: BitSource
  /** The columns that are read, each role once, and `cells` gives their texts in the same order. */
  readonly columns: readonly Column[]
  readonly cells: CellReader
}

const LABEL_ROLES: readonly ColumnRole[] = ['part', 'channel', 'lane']

/** Checks a recipe; every fault at once. It must give an address, or a label (part, channel or lane). */
export function compilePlan(recipe: Recipe): Result<Plan> {
  const used = recipe.columns.filter((column) => column.role !== 'ignore')
  const roles = new Set(used.map((column) => column.role))
  const faults: Fault[] = []
  for (const [i, column] of used.entries()) {
    if (used.findIndex((other) => other.role === column.role) === i) continue
    faults.push({
      path: '$.columns',
      found: `two columns read as ${column.role}`,
      expected: 'each role once',
      todo: 'Set one of them to ignore.',
    })
  }
  const labelled = LABEL_ROLES.some((role) => roles.has(role))
  if (!roles.has('address') && !labelled) {
    faults.push({
      path: '$.columns',
      found: used.length === 0 ? 'no column that is used' : [...roles].join(', '),
      expected: 'a column with the address, or one with a part, channel or lane',
      todo: 'Say which column tells where the error is.',
    })
  }
  const bits = bitSource(roles)
  if (bits === undefined) {
    faults.push({
      path: '$.columns',
      found: `only the ${roles.has('expected') ? 'expected' : 'actual'} word`,
      expected: 'both the expected and the actual word, or one of them with the difference',
      todo: 'Say which column holds the other word, or set this one to ignore.',
    })
  }
  const level = roles.has('address') ? 'words' : 'labels'
  const columns = used.filter((column) => !isSpare(column.role, level, bits))
  const cells = compileCells(recipe.layout, columns)
  if (!cells.ok) faults.push(...cells.faults)
  if (faults.length > 0 || !cells.ok || bits === undefined) return bad(...faults)
  return good({ recipe, level, bits, columns, cells: cells.value })
}

function bitSource(roles: ReadonlySet<ColumnRole>): BitSource | undefined {
  if (roles.has('expected') && roles.has('actual')) return 'expected+actual'
  if (roles.has('expected') && roles.has('difference')) return 'expected+difference'
  if (roles.has('actual') && roles.has('difference')) return 'actual+difference'
  if (roles.has('difference')) return 'difference'
  if (roles.has('expected') || roles.has('actual')) return undefined
  return roles.has('bit') ? 'bit' : 'none'
}

/** A column that says again what others say already: it need not be readable. */
function isSpare(role: ColumnRole, level: Plan['level'], bits: BitSource | undefined): boolean {
  if (LABEL_ROLES.includes(role)) return level === 'words'
  if (role === 'difference') return bits === 'expected+actual'
  return role === 'bit' && bits !== 'bit'
}
