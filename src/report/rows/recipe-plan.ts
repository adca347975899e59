/** A recipe checked and made ready: which column gives what, and which kind of rows comes out. */
import { bad, type Fault, good, type Result, say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { type CellReader, compileCells } from '../text/cells.ts'
import { type NameBook, nameBook } from '../names/names.ts'
import { columnRoles } from '../column-roles.ts'
import type { Column, ColumnRole, Recipe, RowKind } from '../recipe.ts'
import { roleSaid } from '../role-words.ts'

/** Where the failing bits of a row come from. */
export type BitSource = 'expected+actual' | 'expected+difference' | 'actual+difference' | 'difference' | 'bit' | 'none'

/** One kind of rows of a text. */
export interface KindPlan {
  readonly layout: RowKind['layout']
  readonly bits: BitSource
  /** The columns that are read, and `cells` gives their texts in the same order; what heads say stands behind them. */
  readonly columns: readonly Column[]
  readonly cells: CellReader
}

export interface Plan extends KindPlan {
  readonly recipe: Recipe
  readonly level: 'words' | 'labels'
  /** Lines that say something about the rows below them. */
  readonly heads: readonly { readonly columns: readonly Column[]; readonly cells: CellReader }[]
  readonly headColumns: readonly Column[]
  /** Other kinds of rows. */
  readonly tables: readonly KindPlan[]
  /** The board's names, where they are looked for in running text. */
  readonly book: NameBook | undefined
}

/**
 * Checks a recipe; every fault at once. It must give an address, or a label (part, channel or lane).
 * @param model the board, whose names a recipe for running text needs
 */
export function compilePlan(recipe: Recipe, model?: BoardModel): Result<Plan> {
  const heads = compileHeads(recipe)
  if (!heads.ok) return heads
  const inRows = new Set(recipe.columns.map((column) => column.role))
  const headColumns = heads.value.flatMap((head) => head.columns).filter(({ role }) => !inRows.has(role))
  const level = recipe.columns.some((column) => column.role === 'address') ? 'words' : 'labels'
  const main = compileKind(recipe, level, headColumns)
  if (!main.ok) return main
  const tables: KindPlan[] = []
  for (const table of recipe.tables ?? []) {
    const kind = compileKind(table, level, headColumns)
    if (!kind.ok) return kind
    tables.push(kind.value)
  }
  const needsBook = recipe.layout.kind === 'named' || recipe.layout.kind === 'json'
  const book = needsBook && model !== undefined ? nameBook(model, recipe.names) : undefined
  return good({ ...main.value, recipe, level, heads: heads.value, headColumns, tables, book })
}

function compileHeads(recipe: Recipe): Result<Plan['heads']> {
  const heads: { columns: readonly Column[]; cells: CellReader }[] = []
  for (const { layout, columns } of recipe.heads ?? []) {
    const cells = compileCells(layout, columns)
    if (!cells.ok) return cells
    heads.push({ columns, cells: cells.value })
  }
  return good(heads)
}

function compileKind(
  { layout, columns: all }: RowKind,
  level: Plan['level'],
  fromHeads: readonly Column[],
): Result<KindPlan> {
  const used = all.filter((column) => column.role !== 'ignore')
  const roles = new Set([...used, ...fromHeads].map((column) => column.role))
  const faults: Fault[] = []
  for (const [i, column] of used.entries()) {
    const again = used.findIndex((other) => other.role === column.role && other.of === column.of) !== i
    if (!again) continue
    faults.push({
      path: '$.columns',
      found: say('two columns read as {role}', { role: roleSaid[column.role] }),
      expected: say('each role once'),
      todo: say('Set one of them to ignore.'),
    })
  }
  if (!roles.has('address') && ![...roles].some((role) => columnRoles[role].isLabel)) {
    faults.push({
      path: '$.columns',
      found: used.length === 0 ? say('no column that is used') : [...roles].map((role) => roleSaid[role]).join(', '),
      expected: say('a column with the address, or one with a part, channel or lane'),
      todo: say('Say which column tells where the error is.'),
    })
  }
  const bits = bitSource(roles)
  if (bits === undefined) {
    faults.push({
      path: '$.columns',
      found: roles.has('expected') ? say('only the expected word') : say('only the actual word'),
      expected: say('both the expected and the actual word, or one of them with the difference'),
      todo: say('Say which column holds the other word, or set this one to ignore.'),
    })
  }
  const columns = used.filter((column) => !isSpare(column.role, level, bits))
  const cells = compileCells(layout, columns)
  if (!cells.ok) faults.push(...cells.faults)
  if (faults.length > 0 || !cells.ok || bits === undefined) return bad(...faults)
  const outer = fromHeads.filter((column) => !isSpare(column.role, level, bits))
  return good({ layout, bits, columns: [...columns, ...outer], cells: cells.value })
}

function bitSource(roles: ReadonlySet<ColumnRole>): BitSource | undefined {
  if (roles.has('expected') && roles.has('actual')) return 'expected+actual'
  if (roles.has('expected') && roles.has('difference')) return 'expected+difference'
  if (roles.has('actual') && roles.has('difference')) return 'actual+difference'
  if (roles.has('difference')) return 'difference'
  if (roles.has('bits')) return 'difference'
  if (roles.has('expected') || roles.has('actual')) return undefined
  return roles.has('bit') ? 'bit' : 'none'
}

/** A column that says again what others say already: it need not be readable. */
function isSpare(role: ColumnRole, level: Plan['level'], bits: BitSource | undefined): boolean {
  if (columnRoles[role].isLabel) return level === 'words'
  if (role === 'difference') return bits === 'expected+actual'
  if (role === 'bits') return bits !== 'difference'
  return role === 'bit' && bits !== 'bit'
}
