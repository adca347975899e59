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
