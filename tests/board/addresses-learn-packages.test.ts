/** Maps learnt from labels that name packages of several channels: each address comes out at its package. */
import { describe, expect, test } from 'vitest'
import { seededRandom } from '../../src/base/index.ts'
import { describeLearntMap, learnAddressMap, type Observations } from '../../src/board/index.ts'
import { dealtMap, labelsByPackage, SHIPPED_BOARDS, shippedMap, wrongPackages } from '../support/labels-by-package.ts'

const learn = (observations: Observations) => learnAddressMap(observations, seededRandom(1))

describe('400 rows labelled by package, 5 % wrong', () => {
  test.each(SHIPPED_BOARDS)('%s: the package of 4,000 random addresses, and the wrong lines', (name) => {
    const truth = shippedMap(name)
    const seed = 80_001
    const { observations, wrongLines } = labelsByPackage(truth, { rows: 400, wrongShare: 0.05, seed })
    const map = learn(observations)
    expect(map.isSettled).toBe(true)
    expect(wrongPackages(map, truth, seed)).toBe(0)
    expect(map.contradictions).toEqual(wrongLines)
  })

  test('12 packages of two channels: the modulus, three functions, two places each, and no channel told from its twin', () => {
    const { observations } = labelsByPackage(shippedMap('hitch-12'), { rows: 400, wrongShare: 0.05, seed: 80_001 })
    const map = learn(observations)
    expect(map).toMatchObject({ modulus: 3, shift: 8, rank: 3, isByPackage: true, nextAddresses: [], notToldApart: [] })
    expect(map.labels.map(({ places }) => places.length)).toEqual(Array.from({ length: 12 }, () => 2))
    expect(map.places.every(({ channel }) => channel === undefined)).toBe(true)
  })

  test('where a package is one channel, its label has one place', () => {
    const { observations } = labelsByPackage(shippedMap('cleat-10'), { rows: 400, wrongShare: 0.05, seed: 80_001 })
    expect(learn(observations)).toMatchObject({ modulus: 5, rank: 1, isByPackage: false })
  })
})

describe('labels of packages and of channels in one file', () => {
  const truth = shippedMap('bowline-8')
  const wish = { rows: 400, wrongShare: 0.05, seed: 80_011 }

  test('U5 and U5.CH2: every channel has its name, and the package is the part before the dot', () => {
    const { observations, wrongLines } = labelsByPackage(truth, {
      ...wish,
      written: ({ channel, part, random }) => (random.next() < 0.5 ? part : `${part}.${channel}`),
    })
    const map = learn(observations)
    expect(wrongPackages(map, truth, wish.seed)).toBe(0)
    expect(map.contradictions).toEqual(wrongLines)
    expect(map.places.length).toBe(16)
    for (const { channel, package: part } of map.places) expect(channel?.split('.')[0]).toBe(part)
    const inOrder = describeLearntMap(map)?.channel.order.map((name) => name.split('.')[1] ?? '')
    expect(inOrder?.toSorted()).toEqual(truth.description.channel.order.toSorted())
  })

  test('U5 for most rows, channel names for some: a channel lies within the package that holds its place', () => {
    const { observations } = labelsByPackage(truth, {
      ...wish,
      written: ({ channel, part, random }) => (random.next() < 0.8 ? part : channel),
    })
    const map = learn(observations)
    expect(wrongPackages(map, truth, wish.seed)).toBe(0)
    for (const { channel, package: part } of map.places)
      if (channel !== undefined) expect(truth.packageOf.get(channel)).toBe(part)
    expect(map.places.filter(({ channel }) => channel !== undefined).length).toBeGreaterThan(8)
  })

  test('a dot in every name, and no package by itself, is no package', () => {
    const { observations } = labelsByPackage(truth, { ...wish, written: ({ channel }) => `rev1.${channel}` })
    const map = learn(observations)
    expect(map).toMatchObject({ isByPackage: false, isSettled: true })
    expect(map.labels.length).toBe(16)
  })
})

test('two packages that share their channels come out at the same places, and are named together', () => {
  const truth = shippedMap('sheet-bend-16')
  const { observations } = labelsByPackage(truth, {
    rows: 400,
    wrongShare: 0.05,
    seed: 80_021,
    written: ({ part, random }) => (random.next() < 0.5 ? part : part.replace('U1', 'U3')),
  })
  const map = learn(observations)
  expect(map.notToldApart.map((labels) => labels.toSorted().join(' ')).toSorted()).toEqual(
    Array.from({ length: 8 }, (_, i) => `U1${i + 1} U3${i + 1}`),
  )
  expect(wrongPackages(map, truth, 1, ({ found, part }) => found.slice(2) === part.slice(2))).toBe(0)
})

test('one unknown package of several channels is named once the map is known; what it is not contradicts', () => {
  const truth = shippedMap('bowline-8')
  const { observations } = labelsByPackage(truth, {
    rows: 400,
    seed: 80_031,
    written: ({ part, random }) => (part === 'U13' && random.next() < 0.4 ? '?a' : part),
  })
  const inU15 = observations.labelOf.findIndex((index) => observations.labels[index] === 'U15')
  const inU14 = observations.labelOf.findIndex((index) => observations.labels[index] === 'U14')
  const labels = [...observations.labels, '!U15']
  const labelOf = Int32Array.of(...observations.labelOf, labels.length - 1, labels.length - 1)
  const addresses = Float64Array.of(
    ...observations.addresses,
    observations.addresses[inU15] ?? 0,
    observations.addresses[inU14] ?? 0,
  )
  const map = learn({ addresses, labelOf, labels, lines: Int32Array.of(...observations.lines, 401, 402) })
  expect([...map.meaning]).toEqual([['?a', 'U13']])
  expect(map.contradictions).toEqual([401])
})

test('a package without labels: its places are asked for', () => {
  const truth = shippedMap('bowline-8')
  const { observations } = labelsByPackage(truth, { rows: 500, seed: 80_041 })
  const kept = [...observations.labelOf.keys()].filter(
    (row) => observations.labels[observations.labelOf[row] ?? -1] !== 'U12',
  )
  const labels = observations.labels.filter((label) => label !== 'U12')
  const map = learn({
    addresses: Float64Array.from(kept, (row) => observations.addresses[row] ?? 0),
    labelOf: Int32Array.from(kept, (row) => labels.indexOf(observations.labels[observations.labelOf[row] ?? -1] ?? '')),
    labels,
    lines: Int32Array.from(kept, (row) => row + 1),
  })
  expect(map.isSettled).toBe(true)
  expect(describeLearntMap(map)).toBeUndefined()
  expect(map.nextAddresses.length).toBe(2)
})

describe('channels dealt to packages without any order', () => {
  /** Seeds of random maps whose packages do not all come back. */
  const missed = (form: { modulus: number; functions: number }, perPackage: number, seeds: readonly number[]) =>
    seeds.filter((seed) => {
      const truth = dealtMap({ addressBits: 34, ...form }, perPackage, seededRandom(seed))
      const { observations } = labelsByPackage(truth, { rows: 400, wrongShare: 0.05, seed })
      return wrongPackages(learn(observations), truth, seed) > 0
    })

  test.each([
    [1, 3, 2],
    [1, 4, 2],
    [1, 4, 4],
    [1, 5, 4],
    [3, 1, 2],
    [3, 2, 2],
    [3, 2, 3],
    [3, 3, 2],
    [5, 2, 2],
    [7, 1, 2],
    [9, 1, 2],
    [12, 1, 2],
  ])('a factor %i, %i functions, %i channels to a package', (modulus, functions, perPackage) => {
    expect(missed({ modulus, functions }, perPackage, [81_000, 81_001, 81_002])).toEqual([])
  })

  test('too few rows: what is called settled is right, and a map that is not is not printed', () => {
    const forms = [
      { modulus: 1, functions: 3 },
      { modulus: 1, functions: 4 },
      { modulus: 3, functions: 2 },
      { modulus: 5, functions: 1 },
    ]
    const wrong = Array.from({ length: 24 }, (_, i) => 82_000 + i).filter((seed) => {
      const truth = dealtMap(
        { addressBits: 34, ...(forms[seed % 4] ?? { modulus: 1, functions: 3 }) },
        2,
        seededRandom(seed),
      )
      const map = learn(labelsByPackage(truth, { rows: 40 + 2 * (seed % 50), wrongShare: 0.02, seed }).observations)
      return map.isSettled && describeLearntMap(map) !== undefined && wrongPackages(map, truth, seed) > 0
    })
    expect(wrong).toEqual([])
  })

  test('labels without any map: nothing is settled', () => {
    const random = seededRandom(83_000)
    const truth = shippedMap('hitch-12')
    const { observations } = labelsByPackage(truth, { rows: 400, seed: 83_000 })
    const map = learn({ ...observations, labelOf: observations.labelOf.map(() => random.whole(12)) })
    expect(map).toMatchObject({ isSettled: false, functions: [], modulus: 1, isByPackage: false })
  })
})
