/** Counts as a small file of their own, so that shops can pool them: no card, no owner, no day, no part is in it. */
import { z } from 'zod'
import {
  bad,
  type Fault,
  faultsFromZod,
  good,
  parseJson,
  type Result,
  showValue,
  valueAt,
  say,
} from '../../base/index.ts'
import { addCounts, type Counts, countsSchema, isEmpty, isWithin, noCounts, textOfCounts } from './counts.ts'
import { isMinuteFigure, isShareFigure } from './figures.ts'
import type { BoardCounts, ShopRecord } from './record.ts'

export const COUNTS_VERSION = 1

const boardName = z.string().min(1).max(200)

export const countsFileSchema = z.strictObject({
  format: z.literal('liftmap-counts'),
  version: z.literal(COUNTS_VERSION),
  all: countsSchema,
  boards: z.record(boardName, countsSchema).optional().describe('of the same cards, by board; only if wished'),
})
export type CountsFile = z.infer<typeof countsFileSchema>

/** @param names whether those of boards go along */
export const countsFileOf = ({ all, boards }: BoardCounts, names: 'with boards' | 'without boards'): CountsFile => ({
  format: 'liftmap-counts',
  version: COUNTS_VERSION,
  all,
  ...(names === 'with boards' ? { boards: { ...boards } } : {}),
})

/** @returns the counts of a file, or every fault with its JSON path */
export function readCounts(text: string, name = 'counts'): Result<BoardCounts> {
  const parsed = parseJson(text, name)
  if (!parsed.ok) return parsed
  const kind = faultOfKind(parsed.value)
  if (kind !== undefined) return bad(kind)
  const file = countsFileSchema.safeParse(parsed.value)
  if (!file.success) return bad(...faultsFromZod(file.error, parsed.value))
  const { all, boards = {} } = file.data
  const faults = [
    ...unknownFigures(all, '$.all'),
    ...Object.entries(boards).flatMap(([board, counts]) =>
      unknownFigures(counts, `$.boards[${JSON.stringify(board)}]`),
    ),
    ...moreThanAll(all, boards),
  ]
  return faults.length > 0 ? bad(...faults) : good({ all, boards })
}

function faultOfKind(value: unknown): Fault | undefined {
  const format = valueAt(value, ['format'])
  if (format !== 'liftmap-counts') {
    const todo = say('This is no file of counts. Cases, boards and reports are opened from the sheet.')
    return { path: '$.format', found: showValue(format), expected: 'liftmap-counts', todo }
  }
  const version = valueAt(value, ['version'])
  if (typeof version !== 'number' || version <= COUNTS_VERSION) return undefined
  const todo = say('These counts were saved by a newer Liftmap. Update this one and take them in again.')
  return {
    path: '$.version',
    found: showValue(version),
    expected: say('at most {most}', { most: COUNTS_VERSION }),
    todo,
  }
}

function unknownFigures({ shares, minutes }: Counts, path: string): Fault[] {
  const fault = (section: string, id: string): Fault => ({
    path: `${path}.${section}[${JSON.stringify(id)}]`,
    found: id,
    expected: say('a figure that this Liftmap learns'),
    todo: say('The file may be of another version of Liftmap; have it exported anew.'),
  })
  return [
    ...Object.keys(shares).flatMap((id) => (isShareFigure(id) ? [] : [fault('shares', id)])),
    ...Object.keys(minutes).flatMap((id) => (isMinuteFigure(id) ? [] : [fault('minutes', id)])),
  ]
}

function moreThanAll(all: Counts, boards: Readonly<Record<string, Counts>>): Fault[] {
  const together = Object.values(boards).reduce(addCounts, noCounts())
  if (isWithin(together, all)) return []
  const todo = say('The file does not add up; have it exported anew.')
  return [
    {
      path: '$.boards',
      found: say('more than all boards together'),
      expected: say('at most the counts of $.all'),
      todo,
    },
  ]
}

/**
 * Whether counts can be taken in as those of another shop.
 * @returns why not, in words, where the same counts are there already, or where there is nothing in them
 */
export function refusalOf({ all }: BoardCounts, { own, pools }: ShopRecord): string | undefined {
  if (isEmpty(all)) return say('There is nothing in this file: no closed card was counted when it was made.')
  const text = textOfCounts(all)
  if (text === textOfCounts(own.all))
    return say('These are this shop’s own counts: taken in, every card would count twice.')
  const same = pools.find((pool) => textOfCounts(pool.all) === text)
  if (same === undefined) return undefined
  return say('These very counts are here already, as “{name}”: taken in again, every card would count twice.', {
    name: same.name,
  })
}

/** Where one file may be an older or a newer one of the same shop: a sentence that asks. */
export function doubtOf({ all }: BoardCounts, { pools }: ShopRecord): string | undefined {
  const older = pools.find((pool) => isWithin(pool.all, all))
  if (older !== undefined)
    return say(
      'All that “{name}” counts could be in this file too. If both are of the same shop, remove “{name}”, else its cards count twice.',
      { name: older.name },
    )
  const newer = pools.find((pool) => isWithin(all, pool.all))
  return newer === undefined
    ? undefined
    : say(
        'All that this file counts could be in “{name}” too. If both are of the same shop, remove this one again, else its cards count twice.',
        { name: newer.name },
      )
}
