/** A decision to power the card holds for the reasons that were known then, in whatever language they are read later. */
import { afterEach, expect, test } from 'vitest'
import { speak } from '../../src/base/index.ts'
import { caseSchema, cautionAgainstPower, powerOf } from '../../src/case/index.ts'
import { powerUpOf } from '../../src/measure/index.ts'
import { shippedBoard } from '../support/read-board.ts'

afterEach(() => speak('en', {}))

const model = shippedBoard('hitch-12')
const NOBODY_KNOWS = 'Nobody knows what happened to it.'
const facts = caseSchema.parse({
  format: 'liftmap-case',
  version: 3,
  title: 'a card',
  board: { path: 'hitch-12.json' },
  arrival: { accident: 'unknown' },
})
const judged = (of: typeof facts) => powerOf(model, of, 'before')

test('decided in English it holds in German, and what comes up later speaks again', () => {
  expect(cautionAgainstPower(facts, judged(facts)).map(({ sentence }) => sentence)).toEqual([NOBODY_KNOWS])
  const decision = powerUpOf(judged(facts), 'the owner asked for it')
  expect(decision).toMatchObject({ ok: true, value: { against: 'the owner asked for it' } })
  const powerUps = decision.ok ? [decision.value] : []
  speak('de', { [NOBODY_KNOWS]: 'Niemand weiß, was passiert ist.' })
  expect(cautionAgainstPower({ ...facts, powerUps }, judged(facts))).toEqual([])
  const later = { ...facts, arrival: { ...facts.arrival, accident: 'flux' as const } }
  expect(cautionAgainstPower({ ...later, powerUps }, judged(later))).toHaveLength(1)
})
