/** The demo reports: made by the generator, true to what was planted, and read as what they are. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { seededRandom } from '../../src/base/index.ts'
import { readReport, recipeSchema } from '../../src/report/index.ts'
import { demoBoard, demoReports, demoVisit, generatedReports } from '../support/generate-reports.ts'
import { bitsOfWord, marchErrors } from '../support/march.ts'
import { slowDecode } from '../support/slow-address-map.ts'

const MAX_BYTES = 200_000
const files = generatedReports()

const fileOf = (name: string): string => {
  const entry = [...files].find(([path]) => path.startsWith(`demo-data/${name}.report.`))
  if (entry === undefined) throw new Error(`no report ${name}`)
  return entry[1]
}

test.each([...files])('%s stands in the repository as the generator makes it, and is small', (path, text) => {
  expect(readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8')).toBe(text)
  expect(text.length).toBeLessThanOrEqual(MAX_BYTES)
})

interface Row {
  address: bigint
  element: number
  expected: number
  difference: number
}

const rowsOf = (text: string, delimiter: string): Row[] =>
  text
    .trimEnd()
    .split('\n')
    .slice(5)
    .map((line) => {
      const [element = '', address = '', expected = '', actual = ''] = line.split(delimiter)
      return {
        address: BigInt(address),
        element: Number(element),
        expected: Number(expected),
        difference: (Number(expected) ^ Number(actual)) >>> 0,
      }
    })

describe.each([...demoReports, ...demoVisit.filter(({ faults }) => faults.length > 0)])('$name', (demo) => {
  const model = demoBoard(demo)
  const rows = rowsOf(fileOf(demo.name), demo.delimiter)

  test('every row lies, by the slow reference, where a fault was planted', () => {
    const map = model.addressMap
    if (map === undefined) throw new Error('the board has an address map')
    const astray = rows.filter(({ address, difference }) => {
      const place = slowDecode(map, address)
      const channel = model.channelById.get(place?.channel ?? '')
      return !demo.faults.some((fault) => {
        switch (fault.kind) {
          case 'channel':
            return fault.channel === channel?.id
          case 'rows':
            return (
              fault.channel === channel?.id &&
              place?.bank === BigInt(fault.bank) &&
              fault.rows.some((row) => place.row === BigInt(row))
            )
          case 'sparse':
            return channel?.parts.some((part) => fault.parts.includes(part))
          default: {
            const lane = model.laneById.get(fault.lane)
            if (lane === undefined || lane.channel !== channel?.id) return false
            const inside = bitsOfWord(Number(address), channel.bitCount, lane.firstBit, lane.bitCount)
            return (difference & ~inside) === 0
          }
        }
      })
    })
    expect(rows.length).toBeGreaterThan(100)
    expect(astray).toEqual([])
  })

  test('every planted fault shows', () => {
    const map = model.addressMap
    if (map === undefined) throw new Error('the board has an address map')
    const parts = new Set(
      rows.flatMap(({ address }) => model.channelById.get(slowDecode(map, address)?.channel ?? '')?.parts ?? []),
    )
    const planted = demo.faults.flatMap((fault) => {
      if (fault.kind === 'sparse') return fault.parts
      const channel = 'channel' in fault ? fault.channel : (model.laneById.get(fault.lane)?.channel ?? '')
      return model.channelById.get(channel)?.parts ?? []
    })
    expect([...parts].toSorted()).toEqual([...new Set(planted)].toSorted())
  })

  test('elements read what March C- has just written: ones in 3 and 5, zeros in 2, 4 and 6', () => {
    for (const { element, expected } of rows) expect(expected).toBe(element === 3 || element === 5 ? 0xffffffff : 0)
    expect(rows.map(({ element }) => element)).toEqual(rows.map(({ element }) => element).toSorted((a, b) => a - b))
  })
})

test.each([
  ['wept-fitting', { U13: 'byte', U14: 'channel' }],
  ['tired-rows', { U14: 'cells' }],
  ['slipped-tool', { U11: 'sparse', U16: 'sparse' }],
])('%s is read, recipe guessed, as the failures that were planted', async (name, signatures) => {
  const demo = demoReports.find((report) => report.name === name)
  if (demo === undefined) throw new Error(`no report ${name}`)
  const read = await readReport(bytesOf(fileOf(name)), { model: demoBoard(demo) })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  const { tally } = read.value
  expect(tally.rows).toMatchObject({ unreadable: 0, unmapped: 0 })
  const failing = tally.parts.filter(({ signature }) => signature.kind !== 'clean')
  expect(Object.fromEntries(failing.map(({ ref, signature }) => [ref, signature.kind]))).toEqual(signatures)
})

test('the runs of the returned card show what was left each time, and the last one nothing', async () => {
  const failing = []
  for (const demo of demoVisit) {
    const recipe = recipeSchema.parse({
      name: 'tabs',
      layout: { kind: 'delimited', delimiter: demo.delimiter },
      columns: [
        { role: 'address', at: 1 },
        { role: 'expected', at: 2 },
        { role: 'actual', at: 3 },
      ],
    })
    const read = await readReport(bytesOf(fileOf(demo.name)), { model: demoBoard(demo), recipe })
    if (!read.ok) throw new Error(JSON.stringify(read.faults))
    const parts = read.value.tally.parts.filter(({ errors }) => errors > 0)
    failing.push(Object.fromEntries(parts.map(({ ref, signature }) => [ref, signature.kind])))
  }
  expect(failing).toEqual([{ U15: 'package', U16: 'line' }, { U16: 'line' }, {}])
})

async function* bytesOf(text: string): AsyncIterable<Uint8Array> {
  yield new TextEncoder().encode(text)
}

describe('the walk itself', () => {
  const [demo] = demoReports
  if (demo === undefined) throw new Error('there is a report')
  const model = demoBoard(demo)
  const range = { from: 0, end: 2 ** 20, stride: 0x104 }

  test('finds nothing in a memory without faults', () => {
    expect(marchErrors(model, [], range, seededRandom(1))).toEqual([])
  })

  test('finds each stuck data bit, three reads of zero or two of one at each word (van de Goor: all stuck-at faults)', () => {
    const lane = model.lanes[0]
    if (lane === undefined) throw new Error('the board has lanes')
    for (const [reads, each] of [
      ['high', 3],
      ['low', 2],
    ] as const) {
      for (let bit = 0; bit < lane.bitCount; bit++) {
        const errors = marchErrors(model, [{ kind: 'line', lane: lane.id, bit, reads }], range, seededRandom(1))
        const addresses = new Set(errors.map(({ address }) => address))
        expect(addresses.size).toBeGreaterThan(50)
        expect(errors.length).toBe(each * addresses.size)
      }
    }
  })
})
