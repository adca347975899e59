/** `liftmap learn`: labelled addresses become a map; bad lines are named, nothing is printed then. */
import { expect, test } from 'vitest'
import { good } from '../../src/base/index.ts'
import { nodeIo } from '../../src/cli/io.ts'
import { learnLaneOutput, learnOutput } from '../../src/cli/learn-output.ts'
import { runCommandLine } from '../../src/cli/run.ts'
import { TWELVE } from '../support/published-maps.ts'
import { labelsByPackage, shippedMap } from '../support/labels-by-package.ts'
import { disagreements, simulateLabels } from '../support/simulated-labels.ts'

async function learn(text: string | Uint8Array, ...options: string[]) {
  const run = { code: 0, out: '', err: '' }
  const bytes = typeof text === 'string' ? new TextEncoder().encode(text) : text
  run.code = await runCommandLine(['learn', '-', ...options], {
    ...nodeIo,
    out: (words) => {
      run.out += words
    },
    err: (words) => {
      run.err += words
    },
    open: async (path) => (path === '-' ? good(inPieces(bytes)) : await nodeIo.open(path)),
  })
  return run
}

async function* inPieces(bytes: Uint8Array): AsyncIterable<Uint8Array> {
  for (let start = 0; start < bytes.length; start += 1000) yield bytes.subarray(start, start + 1000)
}

const { observations, wrongLines } = simulateLabels(TWELVE, { rows: 400, wrongShare: 0.05, seed: 3 })
const csv = [...observations.addresses]
  .map((address, i) => `0x${address.toString(16)},${observations.labels[observations.labelOf[i] ?? 0]}`)
  .join('\n')

test('the published map of 12 channels: functions, modulus, shift, wrong lines, and a map for a board', async () => {
  const { code, out, err } = await learn(csv)
  expect({ code, err }).toEqual({ code: 0, err: '' })
  const answer = learnOutput.parse(JSON.parse(out))
  expect(answer).toMatchObject({
    modulus: 3,
    shift: 12,
    rank: 2,
    undeterminedBits: [],
    nextAddresses: [],
    settled: true,
  })
  expect(answer.functions.toSorted()).toEqual(['0x10040214100', '0x20080420200'])
  expect(answer.contradictions).toEqual(wrongLines)
  expect(answer.addressMap && disagreements(answer.addressMap, TWELVE, 4)).toBe(0)
})

test('in lines for people', async () => {
  const { out } = await learn(csv, '--text')
  expect(out).toContain('400 lines with 12 labels, addresses of 42 bits.')
  expect(out).toContain('(address >> 12) mod 3')
  expect(out).toContain('parity of address AND 0x20080420200   (bits 9, 17, 22, 31 and 41)')
  expect(out).toContain('lines contradict the rest: ')
})

test('labels of packages: each address to its package, and in words how far that goes', async () => {
  const truth = shippedMap('bowline-8')
  const { observations: seen } = labelsByPackage(truth, { rows: 400, wrongShare: 0.05, seed: 84_000 })
  const text = [...seen.addresses].map((address, i) => `${address},${seen.labels[seen.labelOf[i] ?? 0]}`).join('\n')
  const answer = learnOutput.parse(JSON.parse((await learn(text)).out))
  expect(answer).toMatchObject({ modulus: 1, rank: 4, settled: true, byPackage: true })
  expect(answer.places.map(({ package: part, channel }) => [part, channel])).toEqual(
    answer.addressMap?.channel.order.map((part) => [part, null]),
  )
  const { out } = await learn(text, '--text')
  expect(out).toContain('16 places for 8 packages, 2 each.')
  expect(out).toContain('The labels don’t tell the channels of a package apart.')
})

test('too few lines: what is possible, what is missing, which bits are open, what to label next', async () => {
  const { code, out } = await learn('0x1000,U1\n0x2000,U2\n0x3100,U1\n', '--text')
  expect(code).toBe(0)
  expect(out).toContain('Too few lines')
  expect(out).toContain('No bit can be told yet.')
  expect(out).toMatch(/Label these next:\n {2}0x/)
})

test.each([
  ['', '- line 1: found nothing, expected lines such as 0x1f400,U5.'],
  ['0x1000,U5\n0x20', '- line 2: found "0x20", expected a label after the address'],
  ['0x1000,U5\n0x10000000000000,U5', '- line 2: found "0x10000000000000", expected an address of at most 52 bits.'],
  ['<html>', '- line 1: found "<html>", expected an address such as 0x1f400 or 128000.'],
  [Uint8Array.of(0x50, 0x4b, 3, 4, 0xff, 0xfe, 0, 10), '- line 1: found '],
])('%j ends with exit 1 and the line', async (text, sentence) => {
  const { code, out, err } = await learn(text)
  expect({ code, out }).toEqual({ code: 1, out: '' })
  expect(err).toContain(sentence)
  expect(err).not.toContain('    at ')
})

test('a file that is not there ends with exit 1', async () => {
  let err = ''
  const io = { ...nodeIo, err: (words: string) => (err += words) }
  expect(await runCommandLine(['learn', 'no-such.csv'], io)).toBe(1)
  expect(err).toContain('no-such.csv')
})

// The board's own order of data bits is the truth; 170 balls, byte 0: boards/packages/170-ball.json.
const BYTE = ['A4', 'A2', 'B4', 'B2', 'E4', 'E2', 'F4', 'F2']
const turned = BYTE.map((ball, dq) => `${7 - dq},${ball}`)

// Four labels take two functions, as one parts them in two: here two and two lie at addresses that differ in bit 6 alone.
test('too few lines: how many functions are missing for the labels that there are, and one bit is said as one', async () => {
  const { out } = await learn('0,U1\n0,U2\n64,U3\n64,U4\n1,U1\n65,U3\n', '--text')
  expect(out).toContain('Too few lines: it may fit by chance.')
  expect(out).toContain('1 function or more is missing.')
  expect(out).toContain('parity of address AND 0x40   (bit 6)')
})

test('a lane of a board: failing bits of known balls give its swaps, and a slip is named', async () => {
  const lane = ['--board', 'boards/splice-6.json', '--lane', 'U11.B0']
  const { code, out, err } = await learn(['bit,ball', ...turned, ...turned, '3,A4'].join('\n'), ...lane)
  expect({ code, err }).toEqual({ code: 0, err: '' })
  const answer = learnLaneOutput.parse(JSON.parse(out))
  expect(answer).toMatchObject({ lane: 'U11.B0', swaps: [7, 6, 5, 4, 3, 2, 1, 0], contradictions: [18] })
  expect(answer.bits[0]).toEqual({ bit: 0, dq: 7, ball: 'F2' })
})

test('a lane whose balls are given: what is not known yet, and what to open next, in words', async () => {
  const { out } = await learn(turned.slice(0, 2).join('\n'), '--balls', BYTE.join(','), '--text')
  expect(out).toContain('  bit 7 is DQ0, ball A4')
  expect(out).toContain('Not known: bits 0, 1, 2, 3, 4 and 5. Open or hold next: B4, B2, E4, E2 and F4.')
  const whole = await learn(turned.slice(1).join('\n'), '--balls', BYTE.join(','), '--text')
  expect(whole.out).toContain('"swaps": [7, 6, 5, 4, 3, 2, 1, 0]')
})

test.each([
  [['--board', 'boards/splice-6.json'], 2, 'give --board with --lane, or --balls alone'],
  [['--board', 'boards/splice-6.json', '--lane', 'U11.B9'], 1, '--lane: found U11.B9, expected a lane of the board'],
  [['--board', 'boards/bowline-8.json', '--lane', 'U11.A0'], 1, 'found no ball map for the package of U11'],
  [['--balls', BYTE.join(',')], 1, 'line 1: found "0x1000,U5", expected a data bit and its ball, such as 3,B4'],
])('%j is refused', async (options, exit, sentence) => {
  const { code, out, err } = await learn('0x1000,U5', ...options)
  expect({ code, out }).toEqual({ code: exit, out: '' })
  expect(err).toContain(sentence)
})

test('--help says what the labels mean', async () => {
  let out = ''
  expect(await runCommandLine(['learn', '--help'], { ...nodeIo, out: (words: string) => (out += words) })).toBe(0)
  for (const line of ['0x1f400,?a', '0x1f400,!U5', 'Examples:\n  liftmap learn ']) expect(out).toContain(line)
})
