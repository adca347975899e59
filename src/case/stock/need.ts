/** What the plan of a case needs, held against what the shop has. */
import type { BoardModel, PartKind } from '../../board/index.ts'
import type { Plan } from '../../plan/index.ts'
import type { StockItem, StockKind } from './schema.ts'

export interface NeedLine {
  readonly key: string
  readonly kind: StockKind
  readonly what: string
  readonly package: string
  /** Undefined where the plan names no number: flux, braid, solvent. */
  readonly count: number | undefined
  /** In the plan's words: `360`, `for 2 sites`. */
  readonly amount: string
  /** Of new parts: which they stand in for. */
  readonly refs: readonly string[]
  /** What the plan reckons for all of it. */
  readonly cost: number
}

const KIND_OF: Readonly<Record<PartKind, StockKind>> = {
  core: 'core',
  memory: 'memory',
  'power-stage': 'power stage',
  inductor: 'other part',
  capacitor: 'other part',
  connector: 'other part',
  controller: 'other part',
  other: 'other part',
}

/** New parts, alike ones in one line, then materials in the plan's order. */
export function needOf(plan: Pick<Plan, 'steps' | 'materials'>, model: BoardModel): NeedLine[] {
  const fresh = new Map<string, NeedLine>()
  const refs = plan.steps.flatMap((step) => (step.action === 'replace' ? step.refs : []))
  for (const ref of refs) {
    const part = model.partByRef.get(ref)
    if (part === undefined) continue
    const { value = '', package: named = '' } = part.description
    const kind = KIND_OF[part.kind]
    const key = `${kind} ${value} ${named}`
    const before = fresh.get(key)
    const all = [...(before?.refs ?? []), ref]
    const cost = (before?.cost ?? 0) + costOf(plan, ref)
    fresh.set(key, {
      key,
      kind,
      what: value,
      package: named,
      count: all.length,
      amount: `${all.length}`,
      refs: all,
      cost,
    })
  }
  const materials = plan.materials
    .filter(({ insteadOf }) => insteadOf === undefined)
    .map(({ what, amount, cost }): NeedLine => {
      const number = /^\d+$/.test(amount) ? Number(amount) : undefined
      return { key: `material ${what}`, kind: 'material', what, package: '', count: number, amount, refs: [], cost }
    })
  return [...fresh.values(), ...materials]
}

const costOf = ({ materials }: Pick<Plan, 'materials'>, ref: string): number =>
  materials.find(({ insteadOf }) => insteadOf === ref)?.cost ?? 0

/** Whether an item is what a line asks for: alike in kind, package and, where both name one, value; materials by name. */
export function fits(
  { kind, what, package: named }: Pick<NeedLine, 'kind' | 'what' | 'package'>,
  item: StockItem,
): boolean {
  if (kind !== item.kind) return false
  if (kind === 'material') return same(what, item.what)
  if (named !== '' && item.package !== '' && !same(named, item.package)) return false
  if (named === '' || item.package === '') return what !== '' && same(what, item.what)
  return what === '' || same(what, item.what)
}

const same = (a: string, b: string): boolean => plain(a) === plain(b)
const plain = (text: string): string => text.trim().toLowerCase().replace(/\s+/g, ' ')

/** Pieces of an item that no other case has taken. */
export const freeFor = ({ count, reserved }: StockItem, caseId: string): number =>
  count - reserved.reduce((sum, each) => sum + (each.caseId === caseId ? 0 : each.count), 0)

/** Pieces that this case has taken. */
export const takenFor = ({ reserved }: StockItem, caseId: string): number =>
  reserved.reduce((sum, each) => sum + (each.caseId === caseId ? each.count : 0), 0)

export interface Standing {
  readonly line: NeedLine
  readonly state: 'taken' | 'have' | 'on order' | 'short'
  /** Free for this case, what it has taken with it. */
  readonly have: number
  readonly taken: number
  readonly missing: number
  /** Pieces on order, and the earliest day of those. */
  readonly ordered: number
  readonly expectedOn: string | undefined
  readonly items: readonly StockItem[]
}

/** Each line with what there is of it. A piece serves one line alone. */
export function standingOf(lines: readonly NeedLine[], items: readonly StockItem[], caseId: string): Standing[] {
  const left = new Map(items.map((item) => [item.id, Math.max(0, freeFor(item, caseId))]))
  return lines.map((line) => {
    const own = items.filter((item) => fits(line, item))
    const wanted = line.count ?? 1
    const have = own.reduce((sum, { id }) => sum + (left.get(id) ?? 0), 0)
    let open = wanted
    for (const { id } of own) {
      const used = line.count === undefined ? 0 : Math.min(open, left.get(id) ?? 0)
      left.set(id, (left.get(id) ?? 0) - used)
      open -= used
    }
    const taken = own.reduce((sum, item) => sum + takenFor(item, caseId), 0)
    const ordered = own.reduce((sum, item) => sum + item.ordered, 0)
    const days = own.flatMap((item) => (item.ordered > 0 ? (item.expectedOn ?? []) : []))
    const missing = Math.max(0, wanted - have)
    return {
      line,
      state: taken >= wanted ? 'taken' : missing === 0 ? 'have' : ordered >= missing ? 'on order' : 'short',
      have,
      taken,
      missing,
      ordered,
      expectedOn: days.toSorted()[0],
      items: own,
    }
  })
}
