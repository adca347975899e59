/** Rows to a tally: by the address map, or by the names that rows carry. */
import { bad, type Fault, good, type Result, say } from '../../base/index.ts'
import { type AddressMap, type BoardModel, compileAddressMap } from '../../board/index.ts'
import { assembleTally } from './assemble.ts'
import { newCounts } from './counts.ts'
import type { ForeignNames } from '../names/foreign/meaning.ts'
import { type Place, placeFinder } from '../names/labels.ts'
import { placedCounter, settleWholes } from './placed.ts'
import type { Plan } from '../rows/recipe-plan.ts'
import type { LineCounts, RowSink } from '../rows/reader.ts'
import type { Row } from '../rows/row.ts'
import { newStrangers } from './strangers.ts'
import { cellSpreads } from './spread.ts'
import type { Tally } from '../tally.ts'
import type { Troubles } from '../rows/troubles.ts'
import { newWordCounter } from './addressed.ts'

export interface Counting {
  readonly sink: RowSink
  /** @param withSpreads whether it tells how failures spread over rows and columns, which a trial does not need */
  finish(counts: LineCounts, troubles: Troubles, withSpreads?: boolean): Tally
}

/** Counters for a plan on a board, or why there are none. */
export function startCounting(model: BoardModel, plan: Plan, troubles: Troubles): Result<Counting> {
  if (plan.level === 'labels') return good(countLabels(model, plan, troubles))
  if (model.addressMap === undefined) return bad(noMap(model))
  const map = compileAddressMap(model.addressMap)
  return map.ok ? good(countWords(model, map.value, plan, troubles)) : map
}

function countWords(model: BoardModel, map: AddressMap, plan: Plan, troubles: Troubles): Counting {
  const counter = newWordCounter(newCounts(model), map, plan.bits)
  return {
    sink: {
      batch: (batch, lineOf) =>
        counter.take(batch, (row) => {
          if (!troubles.wantsUnmapped()) return
          const address = `0x${(batch.address[row] ?? 0).toString(16)}`
          const line = lineOf(row)
          troubles.unmapped(line.number, line.text, say('address {address} is beyond the board’s memory', { address }))
        }),
      labelled: () => undefined,
    },
    finish: (lines, _, withSpreads = true) => {
      counter.finish()
      const reached = new Set(map.channelIds)
      if (counter.mapped > 0 && !lines.isCut) {
        for (const [i, lane] of model.lanes.entries()) if (reached.has(lane.channel)) counter.counts.laneCovered[i] = 1
      }
      const rows = {
        read: counter.mapped,
        unmapped: counter.unmapped,
        unreadable: lines.unreadable,
        skipped: lines.skipped,
      }
      return assembleTally(
        counter.counts,
        { rows, troubles: troubles.list(), level: 'words' },
        withSpreads ? cellSpreads(counter, map) : undefined,
      )
    },
  }
}

function countLabels(model: BoardModel, plan: Plan, troubles: Troubles): Counting {
  const counts = newCounts(model)
  const find = rowPlacer(model, plan.recipe.names)
  const count = placedCounter(counts)
  const saysRead = plan.bits !== 'difference' && plan.bits !== 'bit' && plan.bits !== 'none'
  const strangers = newStrangers(troubles, plan.layout.kind === 'delimited' ? plan.layout.delimiter : undefined)
  let read = 0
  return {
    sink: {
      batch: () => undefined,
      labelled: (row, line, text) => {
        const place = find(row)
        if (place === undefined) {
          // A table has cells for lanes that a part does not have.
          if (row.of === undefined || row.count > 0) strangers.take(row, line, text)
          return
        }
        read++
        strangers.known(text)
        const silent = saysRead && (row.differenceLow | row.differenceHigh) === 0
        const actual = saysRead ? { low: row.actualLow, high: row.actualHigh } : undefined
        count(place, {
          errors: silent ? 0 : row.count,
          differenceLow: row.differenceLow,
          differenceHigh: row.differenceHigh,
          actual,
        })
      },
    },
    finish: (lines) => {
      settleWholes(counts)
      const { unmapped, skipped } = strangers.settle(read)
      const rows = { read, unmapped, unreadable: lines.unreadable, skipped: lines.skipped + skipped }
      return assembleTally(counts, { rows, troubles: troubles.list(), level: 'labels' })
    },
  }
}

/** Where a row's count belongs: its labels, and in a table with a column for each place what the column is of. */
export function rowPlacer(model: BoardModel, names: ForeignNames | undefined): (row: Row) => Place | undefined {
  const find = placeFinder(model, names)
  return (row) => {
    if (row.of === undefined) return find(row)
    for (const role of ['lane', 'channel', 'part'] as const) {
      if (row[role] !== undefined) continue
      const place = find({ part: row.part, channel: row.channel, lane: row.lane, [role]: row.of })
      // `BYTE0` over a part whose lanes are called otherwise is none of them.
      if (place !== undefined && (place.by === 'name' || /^\d+$/.test(row.of))) return place
    }
    return undefined
  }
}

const noMap = (model: BoardModel): Fault => ({
  path: 'report',
  found: say('addresses, and {name} has no address map', { name: model.name }),
  expected: say('a board that knows which package an address lies in, or a report that names parts, channels or lanes'),
  todo: say('Teach a board of your own its addresses (a new case, Edit, Addresses), or enter by hand what failed.'),
})
