/** A table entered by hand, added up like a report. */
import { say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { assembleTally } from '../count/assemble.ts'
import { newCounts } from '../count/counts.ts'
import { type Place, placeFinder } from '../names/labels.ts'
import { placedCounter, settleWholes } from '../count/placed.ts'
import type { TableRow } from '../recipe.ts'
import type { Tally } from '../tally.ts'
import { newTroubles } from '../rows/troubles.ts'

/**
 * Adds up rows entered by hand. A row with 0 errors says that its place was tested and is clean; places that no row
 * names stay untested. Rows whose labels are not on the board count as unmapped, their number (from 1) as the line.
 */
export function tallyTable(model: BoardModel, rows: readonly TableRow[]): Tally {
  const counts = newCounts(model)
  const find = placeFinder(model)
  const count = placedCounter(counts)
  const troubles = newTroubles()
  let read = 0
  let unmapped = 0
  for (const [i, row] of rows.entries()) {
    const place = find({ part: row.part, channel: row.channel, lane: row.lane })
    const names = [row.part, row.channel, row.lane].filter((name) => name !== undefined).join(' ')
    if (place === undefined) {
      unmapped++
      troubles.unmapped(
        i + 1,
        say('{names}: {errors} errors', { names, errors: row.errors }),
        say('no part, channel or lane of the board is called {names}', { names }),
      )
      continue
    }
    if (row.bit !== undefined && row.bit >= bitCountOf(model, place)) {
      unmapped++
      troubles.unmapped(
        i + 1,
        say('{names} bit {bit}: {errors} errors', { names, bit: row.bit, errors: row.errors }),
        say('{names} has no data bit {bit}', { names, bit: row.bit }),
      )
      continue
    }
    read++
    count(place, { errors: row.errors, ...maskOf(row.bit), actual: undefined })
  }
  settleWholes(counts)
  const head = {
    rows: { read, unreadable: 0, unmapped, skipped: 0 },
    troubles: troubles.list(),
    level: 'table' as const,
  }
  return assembleTally(counts, head)
}

function bitCountOf(model: BoardModel, place: Place): number {
  if (place.kind === 'lane') return model.lanes[place.index]?.bitCount ?? 0
  if (place.kind === 'channel') return model.channels[place.index]?.bitCount ?? 0
  const ref = model.memories[place.index]?.ref
  const channels = model.channels.filter((channel) => ref !== undefined && channel.parts.includes(ref))
  return channels.length === 1 ? (channels[0]?.bitCount ?? 0) : 0
}

function maskOf(bit: number | undefined): { differenceLow: number; differenceHigh: number } {
  if (bit === undefined || bit > 63) return { differenceLow: 0, differenceHigh: 0 }
  return bit < 32
    ? { differenceLow: 1 << bit, differenceHigh: 0 }
    : { differenceLow: 0, differenceHigh: 1 << (bit - 32) }
}
