/** Stories that are near alike are told once, with what differs; nothing of their weight is lost. */
import { expect, test } from 'vitest'
import { type CauseAt, type Story, toldStories } from '../../src/suspects/index.ts'

const spill: CauseAt = { kind: 'spill', at: 'north-east of U1', refs: ['U1'] }
const die = (at: string): CauseAt => ({ kind: 'die', at, refs: [at] })
const stage = (at: string): CauseAt => ({ kind: 'power-stage', at, refs: [at] })
const story = (probability: number, ...causes: CauseAt[]): Story => ({
  causes,
  probability,
  sentence: causes.map(({ at }) => at).join(' and '),
})
const sumOf = (all: readonly { readonly probability: number }[]): number =>
  all.reduce((sum, { probability }) => sum + probability, 0)

test('stories that add one more fault to the same one are one line that names what differs', () => {
  const stories = [
    story(0.9, spill),
    story(0.03, spill, die('U13')),
    story(0.02, die('U13'), die('U14')),
    story(0.01, spill, stage('S2')),
  ]
  expect(toldStories(stories)).toEqual([
    { sentence: 'north-east of U1', probability: 0.9, count: 1 },
    {
      sentence: 'The first, and one more fault: the die of U13 or power stage S2.',
      probability: 0.04,
      count: 2,
    },
    { sentence: 'U13 and U14', probability: 0.02, count: 1 },
  ])
})

test('unlikely single causes of a kind are one line; a likely one keeps its own', () => {
  const told = toldStories([story(0.6, stage('S1')), story(0.02, stage('S2')), story(0.01, stage('S3'))])
  expect(told.map(({ sentence }) => sentence)).toEqual([
    'S1',
    'One of these is at fault: power stage S2 or power stage S3.',
  ])
})

test('ten near alike are one line that names one, and the sum of all stays', () => {
  const stories = [story(0.5, spill), ...Array.from({ length: 10 }, (_, i) => story(0.02, spill, die(`U${i + 2}`)))]
  const told = toldStories(stories)
  expect(told).toHaveLength(2)
  expect(told[1]).toMatchObject({ sentence: expect.stringContaining('the die of U2 or one of 9 others'), count: 10 })
  expect(sumOf(told)).toBeCloseTo(sumOf(stories), 12)
})

test('a story without causes stays as it is', () => {
  const none: Story = { causes: [], probability: 0.4, sentence: 'Something that is not in the list of causes.' }
  expect(toldStories([none, story(0.3, die('U2'))])[0]?.sentence).toBe(none.sentence)
})

test('three named by one and how many others; two by name', () => {
  const kinds = (count: number) =>
    toldStories([story(0.5, spill), ...Array.from({ length: count }, (_, i) => story(0.02, stage(`S${i + 1}`)))])[1]
  expect(kinds(2)?.sentence).toBe('One of these is at fault: power stage S1 or power stage S2.')
  expect(kinds(3)?.sentence).toBe('One of these is at fault: power stage S1 or one of 2 others.')
})

test('one more fault beside another than the first names that one', () => {
  const stories = [
    story(0.5, spill),
    story(0.2, die('U2')),
    story(0.02, die('U2'), stage('S1')),
    story(0.01, die('U2'), stage('S2')),
  ]
  expect(toldStories(stories).at(-1)).toEqual({
    sentence: 'The die of U2, and one more fault: power stage S1 or power stage S2.',
    probability: 0.03,
    count: 2,
  })
})

test('from 5 % on a single cause stands by itself, below it with others of its kind alone', () => {
  const sentences = (chance: number) =>
    toldStories([story(0.5, spill), story(chance, stage('S1')), story(0.01, stage('S2')), story(0.01, die('U2'))]).map(
      ({ sentence }) => sentence,
    )
  expect(sentences(0.05)).toEqual(['north-east of U1', 'S1', 'S2', 'U2'])
  expect(sentences(0.049)).toEqual([
    'north-east of U1',
    'One of these is at fault: power stage S1 or power stage S2.',
    'U2',
  ])
})

test('two more faults, or another in its place, are no addition to a story', () => {
  const stories = [
    story(0.5, die('U2'), die('U3')),
    story(0.1, die('U2'), die('U4'), stage('S1')),
    story(0.1, die('U2'), die('U5')),
  ]
  expect(toldStories(stories).map(({ count }) => count)).toEqual([1, 1, 1])
  // as a cause is another at another place, and of another kind
  const joints: CauseAt = { kind: 'joints', at: 'U2', refs: ['U2'] }
  expect(
    toldStories([story(0.5, die('U2')), story(0.1, joints, stage('S1')), story(0.1, joints, stage('S2'))]),
  ).toHaveLength(3)
})

test('likeliest first, once those that are told together are added up', () => {
  const stories = [story(0.5, spill), story(0.06, die('U2')), story(0.04, stage('S1')), story(0.04, stage('S2'))]
  expect(toldStories(stories).map(({ probability }) => probability)).toEqual([0.5, 0.08, 0.06])
})
