/** A report read in two halves at once is the report read in one go: the same counts, lines, troubles and verdicts. */
import { fc, test as prop } from '@fast-check/vitest'
import { describe, expect, test } from 'vitest'
import { readReport, readSlice, type ReadOptions, type ReadReport, recipeSchema } from '../../src/report/index.ts'
import { seededRandom } from '../../src/base/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { addressesIn, hex, pieces, utf8 } from './support.ts'

const model = shippedBoard('bowline-8')
const channels = model.channels.map(({ id }) => id)
const inMap = addressesIn(model, channels, 4000)

const HEAD = 'address,expected,actual'
const RECIPE = recipeSchema.parse({
  name: 'address, expected, actual',
  layout: { kind: 'delimited', delimiter: ',' },
  columns: [
    { role: 'address', at: 0, base: 'hex' },
    { role: 'expected', at: 1, base: 'hex' },
    { role: 'actual', at: 2, base: 'hex' },
  ],
})

interface Text {
  readonly seed: number
  readonly rows: number
  readonly lineBreak: '\n' | '\r\n'
  readonly end: 'whole' | 'no break' | 'cut'
  readonly mark: boolean
}

/** Rows of address, expected and actual, with a banner, remarks, rows beyond the map and torn lines among them. */
function textOf({ seed, rows, lineBreak, end, mark }: Text): Uint8Array {
  const random = seededRandom(seed)
  const lines = ['test of a card', HEAD]
  for (let i = 0; i < rows; i++) {
    const address = random.next() < 0.02 ? 0x3f_ffff_ffffn : (inMap[random.whole(inMap.length)] ?? 0n)
    const word = random.whole(2 ** 31)
    lines.push(`0x${hex(address, 10)},0x${hex(word)},0x${hex(word ^ (1 << random.whole(31)))}`)
    if (random.next() < 0.03) lines.push(random.next() < 0.5 ? '0x00zz,,' : '-- next pass --')
  }
  const text = `${mark ? '\u{feff}' : ''}${lines.join(lineBreak)}${end === 'whole' ? lineBreak : ''}`
  return utf8(end === 'cut' ? text.slice(0, -4) : text)
}

type Options = Partial<ReadOptions> & { readonly pieceBytes: number }

async function readIn(bytes: Uint8Array, { pieceBytes, ...options }: Options): Promise<ReadReport> {
  const read = await readReport(pieces(bytes, pieceBytes), { model, sizeBytes: bytes.length, ...options })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.value
}

const halves = (bytes: Uint8Array, pieceBytes: number): NonNullable<ReadOptions['beside']> => {
  return {
    startsAfterBytes: 0,
    read: ({ recipe, fromByte, onProgress }) =>
      readSlice(pieces(bytes.subarray(fromByte), pieceBytes), { model, recipe, onProgress }),
  }
}

const texts = fc.record({
  seed: fc.nat(),
  rows: fc.integer({ min: 20, max: 400 }),
  lineBreak: fc.constantFrom('\n' as const, '\r\n' as const),
  end: fc.constantFrom('whole' as const, 'no break' as const, 'cut' as const),
  mark: fc.boolean(),
})

describe('in two halves', () => {
  prop.prop([texts, fc.integer({ min: 300, max: 9000 })], { numRuns: 100 })(
    'every count, line and verdict is the same, wherever the half falls',
    async (text, pieceBytes) => {
      const bytes = textOf(text)
      const whole = await readIn(bytes, { pieceBytes, recipe: RECIPE })
      const shared = await readIn(bytes, { pieceBytes, recipe: RECIPE, beside: halves(bytes, pieceBytes) })
      // Fair samples are drawn in another order; all that is counted is the same.
      expect(withoutSamples(shared)).toEqual(withoutSamples(whole))
    },
  )

  test('progress goes up to the whole and never beyond', async () => {
    const bytes = textOf({ seed: 1, rows: 2000, lineBreak: '\n', end: 'whole', mark: false })
    const told: number[] = []
    const onProgress = (read: number): void => void told.push(read)
    await readIn(bytes, { pieceBytes: 900, onProgress, beside: halves(bytes, 900) })
    expect(Math.max(...told)).toBeLessThanOrEqual(bytes.length + 900)
    expect(Math.max(...told)).toBeGreaterThan(bytes.length - 1800)
  })

  test('the guess is borne out by both halves', async () => {
    const bytes = textOf({ seed: 3, rows: 600, lineBreak: '\n', end: 'whole', mark: false })
    const whole = await readIn(bytes, { pieceBytes: 900 })
    const shared = await readIn(bytes, { pieceBytes: 900, beside: halves(bytes, 900) })
    expect(withoutSamples(shared)).toEqual(withoutSamples(whole))
  })

  test('a half that fails is read here, to the same result', async () => {
    const bytes = textOf({ seed: 2, rows: 500, lineBreak: '\n', end: 'cut', mark: false })
    const read = (): Promise<never> => Promise.reject(new Error('the worker is gone'))
    const beside = { startsAfterBytes: 0, read }
    expect(await readIn(bytes, { pieceBytes: 700, beside })).toEqual(await readIn(bytes, { pieceBytes: 700 }))
  })

  test('rows that tell of part and lane are not shared out: a heading far above may belong to them', async () => {
    const [lane] = model.lanes
    const rows = Array.from({ length: 200 }, (_, i) => `${lane?.part},${lane?.id},${i + 1}`)
    const bytes = utf8(`part,lane,errors\n${rows.join('\n')}\n`)
    let asked = 0
    const beside: NonNullable<ReadOptions['beside']> = {
      startsAfterBytes: 0,
      read: (wish) => {
        asked++
        return halves(bytes, 500).read(wish)
      },
    }
    const read = await readIn(bytes, { pieceBytes: 500, beside })
    expect(read.tally.rows.read).toBe(200)
    expect(asked).toBe(0)
  })

  test('where failures crowd is told from a fair sample of both halves', async () => {
    const [channel = ''] = channels
    const own = addressesIn(model, [channel], 6000)
    // The first half fails in one place over and over, the second once at each of as many others.
    const crowd = own[7] ?? 0n
    const rows = [...own.map(() => crowd), ...own].map((address) => `0x${hex(address, 10)},0x00000000,0x00000001`)
    const bytes = utf8(`${HEAD}\n${rows.join('\n')}\n`)
    const read = await readIn(bytes, { pieceBytes: 8000, recipe: RECIPE, beside: halves(bytes, 8000) })
    const cells = read.tally.parts.find(({ errors }) => errors > 0)?.cells
    expect(cells?.failingRows).toBe(12_000)
    expect(cells?.sampled).toBe(2048)
    // Half of all failures, from 2048 draws: standard error of the share 0.011, so five of them in 12,000 rows.
    expect(cells?.mostAddresses[0]?.errors).toBeGreaterThan(6000 - 5 * 133)
    expect(cells?.mostAddresses[0]?.errors).toBeLessThan(6000 + 5 * 133)
  })
})

function withoutSamples({ tally, believed: _believed, ...rest }: ReadReport): object {
  const parts = tally.parts.map(({ cells: _cells, signature: _signature, ...part }) => part)
  return { ...rest, tally: { ...tally, parts } }
}
