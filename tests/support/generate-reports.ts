/** Makes the demo reports, and beside each the truth: what was planted. File name to text; the committed files equal these. */
import { readFileSync } from 'node:fs'
import { sayFault, seededRandom } from '../../src/base/index.ts'
import { type BoardModel, readBoard } from '../../src/board/index.ts'
import { type MarchError, marchErrors, type PlantedFault, type WalkedRange } from './march.ts'

export interface DemoReport {
  readonly name: string
  readonly board: string
  readonly seed: number
  readonly delimiter: string
  readonly extension: 'txt' | 'csv'
  readonly walked: WalkedRange
  readonly faults: readonly PlantedFault[]
}

const GIB = 2 ** 30

export const demoReports: readonly DemoReport[] = [
  {
    // A fitting leaked on to the upper right corner of the core: a byte of one neighbour, a channel of the other.
    name: 'wept-fitting',
    board: 'hitch-12',
    seed: 417,
    delimiter: '\t',
    extension: 'txt',
    walked: { from: 0, end: 24 * GIB, stride: 0x300104 },
    faults: [
      { kind: 'lane', lane: 'U13.B1', reads: 'high' },
      { kind: 'channel', channel: 'CH7', reads: 'random' },
    ],
  },
  {
    // No accident: a few rows of one bank of one die have gone bad.
    name: 'tired-rows',
    board: 'bowline-8',
    seed: 1991,
    delimiter: ';',
    extension: 'txt',
    walked: { from: 0x80000000, end: 0x81000000, stride: 0x64 },
    faults: [{ kind: 'rows', channel: 'CH7', bank: 5, rows: [4099, 4100, 4117], cellShare: 0.08 }],
  },
  {
    // A tool slipped near a stage of the memory rail: both packages on its west branch drop a bit now and then.
    name: 'slipped-tool',
    board: 'splice-6',
    seed: 66,
    delimiter: ',',
    extension: 'csv',
    walked: { from: 0, end: 6 * GIB, stride: 0x10104 },
    faults: [{ kind: 'sparse', parts: ['U11', 'U16'], perRead: 0.0008 }],
  },
]

const RETURNED = {
  board: 'cleat-10',
  delimiter: '\t',
  extension: 'txt',
  walked: { from: 0, end: 10 * GIB, stride: 0xa00104 },
} as const

/** A card that was worked on and tested again: as it came, after one of two packages was refitted, after both were. */
export const demoVisit: readonly DemoReport[] = [
  {
    ...RETURNED,
    name: 'returned-card',
    seed: 2024,
    faults: [
      { kind: 'channel', channel: 'CH4', reads: 'random' },
      { kind: 'line', lane: 'U16.B1', bit: 3, reads: 'high' },
    ],
  },
  {
    ...RETURNED,
    name: 'returned-card.second',
    seed: 2025,
    faults: [{ kind: 'line', lane: 'U16.B1', bit: 3, reads: 'high' }],
  },
  { ...RETURNED, name: 'returned-card.third', seed: 2026, faults: [] },
]

export function generatedReports(): ReadonlyMap<string, string> {
  const files = new Map<string, string>()
  for (const demo of [...demoReports, ...demoVisit]) {
    const errors = marchErrors(demoBoard(demo), demo.faults, demo.walked, seededRandom(demo.seed))
    const { name, board, seed, walked, faults, extension } = demo
    const truth = { board, seed, walked, planted: faults, failingReads: errors.length }
    files.set(`demo-data/${name}.report.${extension}`, reportText(demo, errors))
    files.set(`demo-data/${name}.truth.json`, `${JSON.stringify(truth, null, 2)}\n`)
  }
  return files
}

export function demoBoard({ board }: DemoReport): BoardModel {
  const read = readBoard(readFileSync(new URL(`../../boards/${board}.json`, import.meta.url), 'utf8'))
  if (!read.ok) throw new Error(read.faults.map(sayFault).join('\n'))
  return read.value
}

function reportText({ walked, delimiter, seed }: DemoReport, errors: readonly MarchError[]): string {
  const words = Math.ceil((walked.end - walked.from) / walked.stride)
  const lines = [
    `Invented walk for a demo case, seed ${seed}`,
    'March C-: any w0 / up r0 w1 / up r1 w0 / down r0 w1 / down r1 w0 / any r0',
    `${words} words of 32 bits from ${hex(walked.from, 9)} up to ${hex(walked.end, 9)}, one in each ${walked.stride} bytes`,
    '',
    ['element', 'address', 'expected', 'actual'].join(delimiter),
    ...errors.map(({ element, address, expected, actual }) =>
      [element, hex(address, 9), hex(expected, 8), hex(actual, 8)].join(delimiter),
    ),
    ...(errors.length === 0 ? ['no read came back wrong'] : []),
  ]
  return `${lines.join('\n')}\n`
}

const hex = (value: number, digits: number): string => `0x${value.toString(16).padStart(digits, '0')}`
