/** `liftmap where BOARD ADDRESS…`: which channel and part an address lies in. */
import type { z } from 'zod'
import { bad, type Fault, good, type Result, say } from '../../base/index.ts'
import { type AddressMap, type BoardModel, compileAddressMap } from '../../board/index.ts'
import { EXIT, printAnswer, printFaults, WrongUsage, whenGood } from '../answer.ts'
import { openBoardFile } from '../files.ts'
import { type Io, readAll } from '../io.ts'
import { whereOutput } from '../output.ts'

type Where = z.infer<typeof whereOutput>

/**
 * Prints the place of each address, in the order given. Refuses a board without an address map and an address that is
 * no number. Returns the exit code.
 */
export async function runWhere(
  io: Io,
  file: string,
  addresses: readonly string[],
  options: { text?: boolean | undefined },
): Promise<number> {
  const board = await openBoardFile(io, file)
  if (!board.ok) return printFaults(io, board.faults)
  const { model } = board.value
  if (model.addressMap === undefined) {
    return printFaults(io, [
      {
        path: `${file} $.addressMap`,
        found: say('nothing'),
        expected: say('an address map'),
        todo: say('Without one an address can not be told.'),
      },
    ])
  }
  const listed = await addressList(io, addresses)
  if (!listed.ok) return printFaults(io, listed.faults)
  return await whenGood(io, compileAddressMap(model.addressMap), (map) => {
    const answer = listed.value.map((address) => locate(model, map, address))
    printAnswer(io, whereOutput, answer, options.text === true ? sayWhere : undefined)
    return EXIT.fine
  })
}

async function addressList(io: Io, words: readonly string[]): Promise<Result<bigint[]>> {
  if (!words.includes('-')) return parseAddresses(words.map((word, i) => ({ word, path: `address ${i + 1}` })))
  if (words.length > 1)
    throw new WrongUsage(say('Found - among other addresses, expected - alone (one address a line on standard input).'))
  const text = await readAll(io, '-')
  if (!text.ok) return text
  const lines = text.value.split(/\r?\n/).map((line, i) => ({ word: line.trim(), path: `line ${i + 1}` }))
  return parseAddresses(lines.filter(({ word }) => word !== ''))
}

function parseAddresses(words: readonly { word: string; path: string }[]): Result<bigint[]> {
  const faults: Fault[] = []
  const addresses: bigint[] = []
  for (const { word, path } of words) {
    if (/^(0x[0-9a-f]{1,16}|\d{1,20})$/i.test(word)) addresses.push(BigInt(word))
    else faults.push({ path, found: word.slice(0, 40), expected: say('an address such as 0x1f400 or 128000') })
  }
  return faults.length > 0 ? bad(...faults) : good(addresses)
}

function locate(model: BoardModel, map: AddressMap, address: bigint): Where[number] {
  const text = `0x${address.toString(16)}`
  const decoded = address < 1n << 52n ? map.decode(address) : undefined
  if (decoded === undefined) return { address: text, channel: null, part: null }
  const { row, bank, column } = decoded
  return {
    address: text,
    channel: decoded.channel,
    part: partOfByte(model, decoded.channel, address),
    ...(row === undefined ? {} : { row }),
    ...(bank === undefined ? {} : { bank }),
    ...(column === undefined ? {} : { column }),
  }
}

/** The part whose lane carries the byte at an address: two parts may share one channel. */
function partOfByte(model: BoardModel, channelId: string, address: bigint): string | null {
  const channel = model.channelById.get(channelId)
  if (channel === undefined) return null
  const bit = Number((address * 8n) % BigInt(channel.bitCount))
  const lanes = channel.lanes.flatMap((id) => model.laneById.get(id) ?? [])
  return (
    lanes.find((lane) => bit >= lane.firstBit && bit < lane.firstBit + lane.bitCount)?.part ?? channel.parts[0] ?? null
  )
}

function sayWhere(answer: Where): string {
  return answer
    .map(({ address, channel, part, row, bank, column }) => {
      if (channel === null) return say('{address}  not in the memory of this board', { address })
      const cell = [
        row === undefined ? '' : say('row {row}', { row }),
        bank === undefined ? '' : say('bank {bank}', { bank }),
        column === undefined ? '' : say('column {column}', { column }),
      ]
      return [
        say('{address}  {part}  channel {channel}', { address, part: part ?? '?', channel }),
        ...cell.filter((word) => word !== ''),
      ].join('  ')
    })
    .join('\n')
}
