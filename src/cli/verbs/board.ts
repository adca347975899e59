/** `liftmap board FILE…`: checks a board description, or makes one of a layout or of data files of one board. */
import type { z } from 'zod'
import { say } from '../../base/index.ts'
import { type BoardModel, partKinds } from '../../board/index.ts'
import { EXIT, printAnswer, printFaults } from '../answer.ts'
import { openBoardFiles } from '../files.ts'
import type { Io } from '../io.ts'
import { boardOutput } from '../output.ts'

/**
 * Prints what the board has, or every fault of the file; with `out` writes the description as JSON, over an existing
 * file only with `force`. Returns the exit code.
 */
export async function runBoard(
  io: Io,
  files: readonly string[],
  options: { out?: string | undefined; force?: boolean | undefined; text?: boolean | undefined },
): Promise<number> {
  const opened = await openBoardFiles(io, files)
  const asText = options.text === true ? sayBoard : undefined
  if (!opened.ok) {
    printAnswer(
      io,
      boardOutput,
      { ok: false, parts: {}, channels: 0, lanes: 0, rails: 0, faults: [...opened.faults], untold: [] },
      asText,
    )
    return printFaults(io, opened.faults)
  }
  const { model, description, untold } = opened.value
  if (options.out !== undefined) {
    const written = io.write(options.out, `${JSON.stringify(description, null, 2)}\n`, {
      force: options.force === true,
      inputs: files,
    })
    if (!written.ok) return printFaults(io, written.faults)
  }
  printAnswer(
    io,
    boardOutput,
    {
      ok: true,
      name: model.name,
      parts: countByKind(model),
      channels: model.channels.length,
      lanes: model.lanes.length,
      rails: model.rails.length,
      faults: [],
      untold: [...untold],
    },
    asText,
  )
  return EXIT.fine
}

function countByKind(model: BoardModel): Record<string, number> {
  const counts = new Map<string, number>()
  for (const part of model.parts) counts.set(part.kind, (counts.get(part.kind) ?? 0) + 1)
  return Object.fromEntries([...counts].toSorted(([a], [b]) => a.localeCompare(b)))
}

const KINDS: ReadonlyMap<string, readonly [string, string]> = new Map(
  Object.entries(partKinds).map(([kind, { words }]) => [kind, words]),
)

const kindSaid = (kind: string, count: number): string => KINDS.get(kind)?.[count === 1 ? 0 : 1] ?? kind

function sayBoard(board: z.infer<typeof boardOutput>): string {
  if (!board.ok)
    return say('The board has {length, plural, one {# fault} other {# faults}} and was not loaded.', {
      length: board.faults.length,
    })
  const parts = Object.entries(board.parts).map(([kind, count]) => `${count} ${kindSaid(kind, count)}`)
  return [
    say('{name}: {parts}; {channels} channels, {lanes} lanes, {rails} rails', {
      name: board.name ?? 'board',
      parts: parts.join(', '),
      channels: board.channels,
      lanes: board.lanes,
      rails: board.rails,
    }),
    ...board.untold.map((line) => `  - ${line}`),
  ].join('\n')
}
