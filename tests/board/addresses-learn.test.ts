/** Address maps learnt from labelled addresses: published maps come back, wrong labels are outvoted and named. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { rank, reducedRows, seededRandom } from '../../src/base/index.ts'
import {
  type AddressMapDescription,
  describeLearntMap,
  learnAddressMap,
  type LearntMap,
  loadBoard,
  type Observations,
  readObservations,
} from '../../src/board/index.ts'
import {
  A10,
  A14,
  A15,
  A4,
  A6_FUNCTIONS,
  A7_FUNCTIONS,
  A9,
  linearMap,
  numbered,
  oneKibMap,
  STACKED,
  TWELVE,
} from '../support/published-maps.ts'
import { disagreements, simulateLabels } from '../support/simulated-labels.ts'

const learn = (observations: Observations): LearntMap => learnAddressMap(observations, seededRandom(1))

const spanOf = (map: LearntMap): bigint[] => reducedRows(map.functions.map(({ mask }) => BigInt(mask)))

const published = ({ channel }: AddressMapDescription): bigint[] =>
  reducedRows(channel.digits.flatMap((digit) => (digit.kind === 'xor' ? [BigInt(digit.mask)] : [])))

/** Rows written as a technician would. */
function noted(...rows: readonly string[]): Observations {
  const read = readObservations(rows.join('\n'))
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.value
}

// Sources of the maps: tests/support/published-maps.ts (Pessl et al. 2016, Frigo et al. 2020, Jattke et al. 2022, 2024; Linux).
describe('published functions come back from 400 simulated observations with 5 % wrong labels', () => {
  test.each([
    ['A4', A4],
    ['A6', linearMap(34, A6_FUNCTIONS)],
    ['A7', linearMap(34, A7_FUNCTIONS)],
    ['A9', A9],
    ['A10', A10],
    ['A14', A14],
    ['A15', A15],
    ['stacked memory', STACKED],
  ])('%s: the same function space, no modulus', (_, description) => {
    const map = learn(simulateLabels(description, { rows: 400, wrongShare: 0.05, seed: 3 }).observations)
    expect(map).toMatchObject({ modulus: 1, isSettled: true, rank: description.channel.digits.length })
    expect(spanOf(map)).toEqual(published(description))
  })

  test('A6 and A7, two published bases of one space, are learnt as one and the same', () => {
    const [a6, a7] = [A6_FUNCTIONS, A7_FUNCTIONS].map((functions) =>
      learn(simulateLabels(linearMap(34, functions), { rows: 400, seed: 5 }).observations),
    )
    expect(a6?.functions).toEqual(a7?.functions)
  })

  test('12 channels: the modulus over bits 12 up, and both hashes', () => {
    const { observations, wrongLines } = simulateLabels(TWELVE, { rows: 400, wrongShare: 0.05, seed: 3 })
    const map = learn(observations)
    expect(map).toMatchObject({ modulus: 3, shift: 12, rank: 2, isSettled: true })
    expect(spanOf(map)).toEqual(published(TWELVE))
    expect(map.contradictions).toEqual(wrongLines)
  })

  test.each([3, 5] as const)('mod %i over bits 8, 9 and 12 up: the gap is found', (modulus) => {
    const description = oneKibMap(modulus, modulus * 2 ** 30)
    const map = learn(simulateLabels(description, { rows: 400, wrongShare: 0.05, seed: 3 }).observations)
    expect(map).toMatchObject({ modulus, shift: 8, rank: 0, isSettled: true })
    expect(map.gathered.slice(0, 4)).toEqual([8, 9, 12, 13])
    const described = describeLearntMap(map)
    expect(described && disagreements(described, description, 9)).toBe(0)
  })
})

test('a function of the rest is not mistaken for the address bits that nearly make it, near the top of the memory', () => {
  const description: AddressMapDescription = {
    addressBits: 34,
    limit: '0x240000000',
    channel: {
      digits: [
        { kind: 'mod', modulus: 9, bits: [{ low: 9 }], from: 'address' },
        { kind: 'xor', mask: '0x20000200', from: 'rest' },
      ],
      order: numbered(18),
    },
  }
  for (const seed of [1, 2, 3, 500_091]) {
    const { observations, wrongLines } = simulateLabels(description, { rows: 400, wrongShare: 0.05, seed })
    const map = learn(observations)
    expect(map.functions).toEqual([{ mask: 0x20000200, from: 'rest' }])
    expect(map.contradictions).toEqual(wrongLines)
  }
})

describe('the invented boards', () => {
  test.each(['bowline-8', 'cleat-10', 'hitch-12', 'sheet-bend-16', 'splice-6'])(
    '%s: the learnt map is one that its board could carry, and the wrong lines are named',
    (name) => {
      const board = loadBoard(JSON.parse(readFileSync(`boards/${name}.json`, 'utf8')))
      const description = board.ok ? board.value.addressMap : undefined
      if (description === undefined) throw new Error(`${name} has no address map`)
      const { observations, wrongLines } = simulateLabels(description, { rows: 600, wrongShare: 0.05, seed: 8 })
      const map = learn(observations)
      expect(map.contradictions).toEqual(wrongLines)
      const described = describeLearntMap(map)
      expect(described && disagreements(described, description, 9)).toBe(0)
    },
  )
})

describe('labels that name no package', () => {
  test('one unknown package is enough for every function', () => {
    const { observations } = simulateLabels(A4, { rows: 4000, seed: 11 })
    const failing = [...observations.addresses].filter((_, row) => observations.labelOf[row] === 9)
    const map = learn(noted(...failing.map((address) => `${address},?a`)))
    expect(spanOf(map)).toEqual(published(A4))
    expect(map.isSettled).toBe(true)
    expect([...map.meaning]).toEqual([['?a', undefined]])
  })

  test('it is named once a known label lies at its place', () => {
    const map = learn(
      noted(
        '0x0,U1',
        '0x3,U1',
        '0x100,U2',
        '0x103,U2',
        '0x8,U1',
        '0x4,U1',
        '0x10,U1',
        '0x20,U1',
        '0x40,U1',
        '0x80,U1',
        '0x1ff,?a',
        '0x17f,?a',
      ),
    )
    expect(map.functions).toEqual([{ mask: 0x100, from: 'address' }])
    expect(map.meaning.get('?a')).toBe('U2')
  })

  test('not U3: contradicts where the address turns out to be U3, and takes no part otherwise', () => {
    const { observations } = simulateLabels(A9, { rows: 300, seed: 2 })
    const rows = [...observations.addresses].map((address, i) => `${address},U${observations.labelOf[i]}`)
    const map = learn(noted(...rows, '0,!U0', '0x40,!U0', '0x41,!U9'))
    expect(map.contradictions).toEqual([301])
    expect(map.functions).toEqual(learn(observations).functions)
  })
})

describe('rows as a bench makes them', () => {
  const turned = (address: number, bit: number): number =>
    Math.floor(address / 2 ** bit) % 2 === 1 ? address - 2 ** bit : address + 2 ** bit

  test.each([0, 0x155555555, 0x2aaaaaaaa, 0x12345678])(
    'one address, %i, and each of its bits turned over: the functions are among those still possible, and no modulus',
    (address) => {
      const rows = [address, ...Array.from({ length: 34 }, (_, bit) => turned(address, bit))]
      const map = learn(relabel(Float64Array.from(rows)).observations)
      expect(map.modulus).toBe(1)
      expect(rank([...spanOf(map), ...published(A4)])).toBe(map.rank)
      expect(map.isSettled).toBe(false)
      expect(map.contradictions).toEqual([])
    },
  )

  test('one package mistaken for another a dozen times: the same functions, and these lines', () => {
    const { observations } = simulateLabels(A4, { rows: 1200, seed: 3 })
    const wrong = [...observations.lines].filter((line) => observations.labelOf[line - 1] === 3).slice(0, 12)
    const labelOf = observations.labelOf.map((label, row) => (wrong.includes(row + 1) ? 7 : label))
    const map = learn({ ...observations, labelOf })
    expect(spanOf(map)).toEqual(published(A4))
    expect(map.contradictions).toEqual(wrong)
  })

  test('only two packages of twelve ever labelled: modulus and functions all the same', () => {
    const { observations } = simulateLabels(TWELVE, { rows: 3000, wrongShare: 0.05, seed: 3 })
    const rows = [...observations.addresses].flatMap((address, i) =>
      (observations.labelOf[i] ?? 0) < 2 ? [`${address},U${observations.labelOf[i]}`] : [],
    )
    const map = learn(noted(...rows))
    expect(map).toMatchObject({ modulus: 3, shift: 12, isSettled: true })
    expect(spanOf(map)).toEqual(published(TWELVE))
  })
})

describe('what is not known', () => {
  test('a bit that never changed can not be told, and the next address turns it over', () => {
    const { observations } = simulateLabels(A4, { rows: 400, seed: 4 })
    const addresses = observations.addresses.map((address) => address - (Math.floor(address / 2 ** 21) % 2) * 2 ** 21)
    const { observations: relabelled } = relabel(addresses)
    const map = learn(relabelled)
    expect(map.undeterminedBits).toEqual([21])
    expect(map.rank).toBe(5)
    expect(map.nextAddresses.some((address) => Math.floor(address / 2 ** 21) % 2 === 1)).toBe(true)
  })

  test('each next address, once labelled, halves the functions still possible, until they are the true ones', () => {
    let addresses = simulateLabels(A4, { rows: 44, seed: 6 }).observations.addresses
    let map = learn(relabel(addresses).observations)
    const ranks = [map.rank]
    for (let asked = 0; asked < 40 && map.nextAddresses.length > 0; asked++) {
      addresses = Float64Array.of(...addresses, map.nextAddresses[0] ?? 0)
      map = learn(relabel(addresses).observations)
      ranks.push(map.rank)
    }
    expect(ranks[0]).toBeGreaterThan(5)
    expect(spanOf(map)).toEqual(published(A4))
    expect(map.isSettled).toBe(true)
    for (const [i, next] of ranks.slice(1).entries()) expect(next).toBeLessThanOrEqual(ranks[i] ?? 0)
  })

  test('labels that follow no map: nothing is found, and that is not called settled', () => {
    const random = seededRandom(12)
    const rows = Array.from({ length: 400 }, () => `${random.whole(2 ** 31)},U${random.whole(12)}`)
    expect(learn(noted(...rows))).toMatchObject({ functions: [], modulus: 1, isSettled: false, contradictions: [] })
  })

  test.each([
    ['one row', ['0x1000,U5']],
    ['address 0 alone', ['0,U5', '0,U5']],
    ['one address with two labels', ['0x40,U5', '0x40,U6']],
    ['only what it is not', ['0x40,!U5', '0x80,!U6']],
  ])('%s: no map, and no failure', (_, rows) => {
    const map = learn(noted(...rows))
    expect(describeLearntMap(map)).toBeUndefined()
    expect(map.modulus).toBe(1)
  })
})

/** The labels that A4 gives to addresses. */
function relabel(addresses: Float64Array): { observations: Observations } {
  const masks = published(A4)
  const word = (address: number): string => masks.map((mask) => parityOf(BigInt(address) & mask)).join('')
  return { observations: noted(...[...addresses].map((address) => `${address},${word(address)}`)) }
}

function parityOf(value: bigint): number {
  let odd = 0
  for (let rest = value; rest > 0n; rest >>= 1n) odd ^= Number(rest & 1n)
  return odd
}
