/** The report of a test, in one of several layouts: rows with addresses, labels with counts, or a table by hand. */
import { type Random, say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import type { Recipe, TableRow } from '../../report/index.ts'
import { type BadRead, errorsByLane } from './card-memory.ts'
import { chance, pick } from './draw.ts'
import type { Mixture } from './mixture.ts'
import type { SimulatedReport } from './types.ts'
import type { Walk } from './walk.ts'

export interface Tested {
  readonly model: BoardModel
  readonly walk: Walk
  readonly bad: readonly BadRead[]
  readonly mixture: Mixture
  readonly random: Random
}

/** The report of one test in a layout that the mixture draws; what it tells are the bad reads, nothing of the cause. */
export function drawReport(tested: Tested): SimulatedReport {
  const { random, mixture } = tested
  if (chance(random, mixture.figures.rowReports)) return pick(random, ROW_LAYOUTS)?.(tested) ?? commaRows(tested)
  return chance(random, 0.5) ? laneCounts(tested) : table(tested)
}

const hex = (value: number, digits: number): string => `0x${value.toString(16).padStart(digits, '0')}`

const recipe = (name: string, layout: Recipe['layout'], columns: Recipe['columns']): Recipe => ({
  name,
  layout,
  columns,
  skipLinesWith: [],
  addressUnitBytes: 1,
})

const CLEAN_LINE = 'no read came back wrong'

function written(layout: string, head: readonly string[], rows: readonly string[], how: Recipe): SimulatedReport {
  const lines = [...head, ...(rows.length === 0 ? [CLEAN_LINE] : rows)]
  return { kind: 'text', layout, text: `${lines.join('\n')}\n`, recipe: rows.length === 0 ? undefined : how }
}

function commaRows({ walk, bad }: Tested): SimulatedReport {
  const rows = bad.map(({ element, word, expected, actual }) =>
    [element, hex(walk.addresses[word] ?? 0, 9), hex(expected, 8), hex(actual, 8)].join(','),
  )
  const how = recipe(say('element, address, words'), { kind: 'delimited', delimiter: ',' }, [
    { role: 'address', at: 1, base: 'hex' },
    { role: 'expected', at: 2, base: 'hex' },
    { role: 'actual', at: 3, base: 'hex' },
  ])
  return written(say('comma rows'), ['element,address,expected,actual'], rows, how)
}

function pairRows({ walk, bad }: Tested): SimulatedReport {
  const rows = bad.map(
    ({ word, expected, actual }) =>
      `where=${hex(walk.addresses[word] ?? 0, 9)} wanted=${hex(expected, 8)} got=${hex(actual, 8)}`,
  )
  const how = recipe(say('named values'), { kind: 'pairs' }, [
    { role: 'address', at: 'where', base: 'hex' },
    { role: 'expected', at: 'wanted', base: 'hex' },
    { role: 'actual', at: 'got', base: 'hex' },
  ])
  return written(say('named values'), [], rows, how)
}

function differenceRows({ walk, bad }: Tested): SimulatedReport {
  const rows = bad.map(({ word, expected, actual }) =>
    [hex(walk.addresses[word] ?? 0, 9), hex((expected ^ actual) >>> 0, 8)].join('\t'),
  )
  const how = recipe(say('address and difference'), { kind: 'delimited', delimiter: '\t' }, [
    { role: 'address', at: 0, base: 'hex' },
    { role: 'difference', at: 1, base: 'hex' },
  ])
  return written(say('address and difference'), [], rows, how)
}

const ROW_LAYOUTS: readonly ((tested: Tested) => SimulatedReport)[] = [commaRows, pairRows, differenceRows]

interface LaneCount {
  readonly lane: string
  readonly errors: number
}

/** Counts by lane; on some cards a package's lanes are not in it. */
function countsOf({ model, walk, bad, mixture, random }: Tested): LaneCount[] {
  const errors = errorsByLane(model, walk, bad)
  const partly = chance(random, mixture.figures.partlyTested)
  const left = new Set(partly ? model.memories.filter(() => chance(random, 0.3)).map(({ ref }) => ref) : [])
  return model.lanes.filter(({ part }) => !left.has(part)).map(({ id }) => ({ lane: id, errors: errors.get(id) ?? 0 }))
}

function laneCounts(tested: Tested): SimulatedReport {
  const rows = countsOf(tested).map(({ lane, errors }) => `${lane};${errors}`)
  const how = recipe(say('lane and count'), { kind: 'delimited', delimiter: ';' }, [
    { role: 'lane', at: 0, base: 'auto' },
    { role: 'count', at: 1, base: 'decimal' },
  ])
  return written(say('lane and count'), ['lane;errors'], rows, how)
}

function table(tested: Tested): SimulatedReport {
  const rows: TableRow[] = countsOf(tested).map(({ lane, errors }) => ({ lane, errors }))
  return { kind: 'table', layout: say('table by hand'), rows }
}
