/** Some of a report's own lines beside what they were taken for: the receipt that a person can check. */
import { numberWords, say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import type { Trial, TriedRow } from './trial.ts'
import { showLine } from '../text/text.ts'

export interface Receipt {
  /** From 1. */
  readonly line: number
  readonly text: string
  /** Such as `U14.A0, 1,432 errors`. */
  readonly means: string
}

const SHOWN = 3

/** Three lines: the first, the one with the most errors, and one that passed, or else the middle and the last. */
export function receiptsOf(trial: Trial, model: BoardModel): Receipt[] {
  const { rows } = trial
  const most = rows.reduce<TriedRow | undefined>(
    (best, row) => (row.row.count > (best?.row.count ?? 0) ? row : best),
    undefined,
  )
  const passed = rows.find((row) => row.row.count === 0)
  const chosen = [most, passed, rows[0], rows[Math.floor(rows.length / 2)], rows.at(-1)].filter(
    (row) => row !== undefined,
  )
  const byLine = new Map<number, TriedRow[]>()
  for (const row of chosen) {
    if (byLine.size < SHOWN && !byLine.has(row.line))
      byLine.set(
        row.line,
        rows.filter((other) => other.line === row.line),
      )
  }
  return [...byLine]
    .toSorted(([a], [b]) => a - b)
    .map(([line, own]) => ({
      line,
      text: showLine(own[0]?.text ?? ''),
      means: own
        .slice(0, 6)
        .map((row) => meaningOf(row, trial, model))
        .join('; '),
    }))
}

function meaningOf({ row, place }: TriedRow, trial: Trial, model: BoardModel): string {
  const errors = row.count === 1 ? say('1 error') : say('{count} errors', { count: numberWords(row.count) })
  if (trial.plan.level === 'words') return `${lanesOfWord(row, trial, model)}, ${errors}`
  if (place === undefined) return say('nothing on this board')
  const { kind, index, lanes } = place
  const id =
    lanes !== undefined
      ? lanes.map((lane) => model.lanes[lane]?.id).join(' and ')
      : kind === 'part'
        ? model.memories[index]?.ref
        : kind === 'channel'
          ? model.channels[index]?.id
          : model.lanes[index]?.id
  return row.count === 0 ? say('{id}, tested and clean', { id }) : `${id}, ${errors}`
}

/** Bit b of the word at byte address A is bit (8·A + b) mod W of its channel of W bits. */
function lanesOfWord(row: TriedRow['row'], { map, plan }: Trial, model: BoardModel): string {
  if (map === undefined) return say('no address map')
  const channels = new Int32Array(1)
  map.decodeChannels(Float64Array.of(row.address), channels)
  const id = map.channelIds[channels[0] ?? -1]
  const channel = id === undefined ? undefined : model.channelById.get(id)
  if (channel === undefined) return say('beyond this board’s memory')
  if (plan.bits === 'none') return `${channel.id} (${channel.parts.join(', ')})`
  const hit = new Set<string>()
  for (let b = 0; b < 64; b++) {
    const half = b < 32 ? row.differenceLow : row.differenceHigh
    if (((half >>> (b & 31)) & 1) === 0) continue
    const bit = Number((BigInt(row.address) * 8n + BigInt(b)) % BigInt(channel.bitCount))
    const lane = channel.lanes.find((laneId) => {
      const known = model.laneById.get(laneId)
      return known !== undefined && bit >= known.firstBit && bit < known.firstBit + known.bitCount
    })
    if (lane !== undefined) hit.add(lane)
  }
  return hit.size === 0 ? say('{id}, no bit', { id: channel.id }) : [...hit].join(', ')
}
