/** Reads a 200 MB delimited report: against reading the file alone, and against PapaParse streaming the same file. */
import { createReadStream, existsSync, mkdirSync, readFileSync, renameSync, statSync } from 'node:fs'
import { open } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Papa from 'papaparse'
import { seededRandom } from '../../src/base/index.ts'
import { type BoardModel, compileAddressMap, readBoard } from '../../src/board/index.ts'
import { readReport } from '../../src/report/index.ts'

const REPORT_BYTES = 200_000_000
const CHUNK_BYTES = 1 << 18
const ROUNDS = 5
const ROW_BYTES = 35

const board = new URL('../../boards/hitch-12.json', import.meta.url)

/**
 * Medians in milliseconds of interleaved rounds, and their ratios; aims: at most 4 times the read, 4 times the parser.
 * Where others use the machine too, the least milliseconds of the processor (all threads, the system's part included)
 * tell more than the clock.
 */
export async function benchReport(): Promise<object> {
  const loaded = readBoard(readFileSync(board, 'utf8'))
  if (!loaded.ok) throw new Error(`hitch-12: ${loaded.faults[0]?.path}`)
  const path = await reportFile(loaded.value)
  const times = {
    read: [] as number[],
    touch: [] as number[],
    ours: [] as number[],
    uncompiled: [] as number[],
    papaparse: [] as number[],
  }
  const least: Record<keyof typeof times, number> = {
    read: Infinity,
    touch: Infinity,
    ours: Infinity,
    uncompiled: Infinity,
    papaparse: Infinity,
  }
  const measure = async (what: keyof typeof times, run: () => Promise<unknown>): Promise<void> => {
    const before = process.cpuUsage()
    times[what].push(await timed(run))
    const { user, system } = process.cpuUsage(before)
    least[what] = Math.min(least[what], (user + system) / 1000)
  }
  let rows = { ours: 0, papaparse: 0 }
  await readAlone(path)
  for (let round = 0; round < ROUNDS; round++) {
    await measure('read', () => readAlone(path))
    await measure('touch', () => touchEveryByte(path))
    await measure('ours', async () => {
      rows = { ...rows, ours: await readOurs(path, loaded.value, true) }
    })
    await measure('uncompiled', () => readOurs(path, loaded.value, false))
    await measure('papaparse', async () => {
      rows = { ...rows, papaparse: await readWithPapaParse(path) }
    })
  }
  const [read = 0, touch = 0, ours = 0, uncompiled = 0, papaparse = 0] = [
    times.read,
    times.touch,
    times.ours,
    times.uncompiled,
    times.papaparse,
  ].map(median)
  return {
    what: `${statSync(path).size} bytes, ${rows.ours} rows of address, expected and actual, tallied on hitch-12`,
    rounds: ROUNDS,
    readAloneMs: round(read),
    readAndTouchEachByteMs: round(touch),
    oursMs: round(ours),
    oursWithoutCompiledLoopsMs: round(uncompiled),
    papaParseMs: round(papaparse),
    papaParseRows: rows.papaparse,
    oursOverReadAlone: ratio(ours, read),
    withoutCompiledLoopsOverReadAlone: ratio(uncompiled, read),
    oursOverReadAndTouch: ratio(ours, touch),
    papaParseOverOurs: ratio(papaparse, ours),
    leastProcessorMs: Object.fromEntries(Object.entries(least).map(([what, ms]) => [what, round(ms)])),
    aims: { oursOverReadAlone: 'at most 4', papaParseOverOurs: 'at least 4' },
  }
}

const round = (value: number): number => Math.round(value * 10) / 10
const ratio = (a: number, b: number): number => Math.round((100 * a) / b) / 100
const stream = (path: string) => createReadStream(path, { highWaterMark: CHUNK_BYTES })

async function timed(run: () => Promise<unknown>): Promise<number> {
  const from = performance.now()
  await run()
  return performance.now() - from
}

function median(values: readonly number[]): number {
  const sorted = [...values].toSorted((a, b) => a - b)
  return sorted[sorted.length >> 1] ?? Number.NaN
}

async function readAlone(path: string): Promise<number> {
  let sum = 0
  for await (const chunk of stream(path)) sum += chunk.length + chunk[0]
  return sum
}

/** The same, and a look at each byte: what anything that finds line breaks in plain JavaScript must do at least. */
async function touchEveryByte(path: string): Promise<number> {
  let lines = 0
  for await (const chunk of stream(path)) lines += countBreaks(chunk)
  return lines
}

function countBreaks(bytes: Uint8Array): number {
  let breaks = 0
  for (let i = 0; i < bytes.length; i++) if (bytes[i] === 10) breaks++
  return breaks
}

async function readOurs(path: string, model: BoardModel, mayCompile: boolean): Promise<number> {
  const read = await readReport(stream(path), { model, mayCompile })
  if (!read.ok) throw new Error(read.faults[0]?.found)
  return read.value.tally.rows.read
}

function readWithPapaParse(path: string): Promise<number> {
  return new Promise((resolve, reject) => {
    let rows = 0
    Papa.parse<string[]>(stream(path), {
      chunk: (results) => {
        rows += results.data.length
      },
      complete: () => resolve(rows),
      error: reject,
    })
  })
}

/** A report with a byte lane and a whole channel that fail, made once and kept. */
async function reportFile(model: BoardModel): Promise<string> {
  const folder = join(tmpdir(), 'liftmap-bench')
  const path = join(folder, 'report-200mb-1.csv')
  if (existsSync(path) && Math.abs(statSync(path).size - REPORT_BYTES) < 1000) return path
  mkdirSync(folder, { recursive: true })
  const file = await open(`${path}.part`, 'w')
  const addresses = failingAddresses(model)
  const random = seededRandom(7)
  let text = 'address,expected,actual\n'
  const patterns = [0, 0xffffffff, 0x55555555, 0xaaaaaaaa]
  for (let row = 0; row * ROW_BYTES < REPORT_BYTES; row++) {
    const expected = patterns[row & 3] ?? 0
    const flips = random.whole(2) === 0 ? 0x00ff00ff & Math.floor(random.next() * 2 ** 32) : 1 << random.whole(32)
    text += `${hex(addresses(), 10)},${hex(expected, 8)},${hex((expected ^ (flips || 1)) >>> 0, 8)}\n`
    if (text.length > 1 << 20) {
      await file.write(text)
      text = ''
    }
  }
  await file.write(text)
  await file.close()
  renameSync(`${path}.part`, path)
  return path
}

const hex = (value: number, digits: number): string => `0x${value.toString(16).padStart(digits, '0')}`

/** Rising addresses of four channels. */
function failingAddresses(model: BoardModel): () => number {
  if (model.addressMap === undefined) throw new Error('hitch-12 has no address map')
  const map = compileAddressMap(model.addressMap)
  if (!map.ok) throw new Error('hitch-12 has a wrong address map')
  const channels = new Set(['CH4', 'CH5', 'CH8', 'CH9'])
  let address = map.value.firstAddress
  return () => {
    do address += 4
    while (!channels.has(map.value.decode(address)?.channel ?? ''))
    return address
  }
}
