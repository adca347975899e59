/**
 * A board file, piece by piece: those pieces that parse, each with its place in the file, so that one slip in one part
 * does not hide the faults of all the others.
 */
import { valueAt } from '../base/index.ts'
import type { z } from 'zod'
import {
  type AddressMapDescription,
  addressMapSchema,
  type BoardDescription,
  boardSchema,
  type ChannelDescription,
  channelSchema,
  type Part,
  partSchema,
  type Rail,
  type ReportWords,
  reportWordsSchema,
  railSchema,
} from './schema.ts'

export interface Placed<T> {
  readonly index: number
  readonly value: T
}

export interface BoardDraft {
  readonly outline: BoardDescription['outline'] | undefined
  readonly holes: readonly Placed<BoardDescription['holes'][number]>[]
  readonly parts: readonly Placed<Part>[]
  readonly rails: readonly Placed<Rail>[]
  readonly channels: readonly Placed<ChannelDescription>[]
  readonly addressMap: AddressMapDescription | undefined
  readonly reportWords: readonly Placed<ReportWords>[]
  /** Refs and channel ids that stand in the file, also on pieces that did not parse. */
  readonly refs: ReadonlySet<string>
  readonly channelIds: ReadonlySet<string>
}

const placed = <T>(values: readonly T[]): Placed<T>[] => values.map((value, index) => ({ index, value }))

/** The draft of a file that parsed as a whole: every piece at its own index. */
export function draftOfBoard(board: BoardDescription): BoardDraft {
  return {
    outline: board.outline,
    holes: placed(board.holes),
    parts: placed(board.parts),
    rails: placed(board.rails),
    channels: placed(board.memory.channels),
    addressMap: board.addressMap,
    reportWords: placed(board.reportWords ?? []),
    refs: new Set(board.parts.map((part) => part.ref)),
    channelIds: new Set(board.memory.channels.map((channel) => channel.id)),
  }
}

/** What can be read of an input that as a whole does not parse. */
export function draftOfPieces(input: unknown): BoardDraft {
  const { shape } = boardSchema
  const parts = listAt(input, ['parts'])
  const channels = listAt(input, ['memory', 'channels'])
  return {
    outline: parsed(shape.outline, valueAt(input, ['outline'])),
    holes: parsedEach(shape.holes.unwrap().element, listAt(input, ['holes'])),
    parts: parsedEach(partSchema, parts),
    rails: parsedEach(railSchema, listAt(input, ['rails'])),
    channels: parsedEach(channelSchema, channels),
    addressMap: parsed(addressMapSchema, valueAt(input, ['addressMap'])),
    reportWords: parsedEach(reportWordsSchema, listAt(input, ['reportWords'])),
    refs: stringsAt(parts, 'ref'),
    channelIds: stringsAt(channels, 'id'),
  }
}

function listAt(input: unknown, steps: readonly string[]): readonly unknown[] {
  const value = valueAt(input, steps)
  return Array.isArray(value) ? value : []
}

function stringsAt(list: readonly unknown[], key: string): ReadonlySet<string> {
  return new Set(list.map((item) => valueAt(item, [key])).filter((value) => typeof value === 'string'))
}

function parsed<T extends z.ZodType>(schema: T, value: unknown): z.output<T> | undefined {
  const result = schema.safeParse(value)
  return result.success ? result.data : undefined
}

function parsedEach<T extends z.ZodType>(schema: T, list: readonly unknown[]): Placed<z.output<T>>[] {
  const pieces: Placed<z.output<T>>[] = []
  for (const [index, item] of list.entries()) {
    const result = schema.safeParse(item)
    if (result.success) pieces.push({ index, value: result.data })
  }
  return pieces
}
