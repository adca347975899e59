/** What a shop may set of the assumptions and of the price book: the least and the most of each, and that one changes no other. */
import { describe, expect, test } from 'vitest'
import {
  assumptionsSchema,
  defaultAssumptions,
  defaultPriceBook,
  paceBy,
  priceBookSchema,
  pricesOf,
  shippedAssumptions,
  shippedPriceBook,
  withAssumptions,
} from '../../src/suspects/index.ts'

const looks = { cells: 0.1, line: 0.2, sparse: 0.3, whole: 0.4 }

describe('a figure of the assumptions is taken from the least to the most, and none beyond', () => {
  test.each<[string, string, number, number, number]>([
    ['prior', 'die', 0, 1, 0.01],
    ['fails', 'leak', 0, 1, 0.01],
    ['severity', 'rail-weak', 0, 1, 0.01],
    ['core', 'whole', 0, 1, 0.01],
    ['bite', 'full', 0, 1, 0.01],
    ['told', 'reported', 0, 1, 0.01],
    ['evidence', 'residueElsewhere', 0, 1, 0.01],
    ['risk', 'coreDamage', 0, 1, 0.01],
    ['cost', 'minutesPerCoreLift', 0, 1e6, 1],
    ['cures', 'replaceDie', 0, 1, 0.01],
    ['patch', 'stepMm', 0.2, 20, 0.1],
  ])('%s.%s from %d to %d', (section, name, least, most, step) => {
    const isTaken = (value: number): boolean => assumptionsSchema.safeParse({ [section]: { [name]: value } }).success
    expect([least - step, least, most, most + step].map(isTaken)).toEqual([false, true, true, false])
  })
  test('radii of a patch: one to twelve, each up to 100 mm', () => {
    const isTaken = (radiiMm: number[]): boolean => assumptionsSchema.safeParse({ patch: { radiiMm } }).success
    expect([[], [0], [100], [101], Array<number>(12).fill(1), Array<number>(13).fill(1)].map(isTaken)).toEqual([
      false,
      false,
      true,
      false,
      true,
      false,
    ])
  })
  test('how errors look, all four', () => {
    const isTaken = (die: object): boolean => assumptionsSchema.safeParse({ signature: { die } }).success
    expect([looks, { ...looks, cells: 1.1 }, { cells: 0.1 }, { ...looks, round: 0.1 }].map(isTaken)).toEqual([
      true,
      false,
      false,
      false,
    ])
  })
  test('of a check how often it finds and falsely alarms', () => {
    const isTaken = (press: object): boolean => assumptionsSchema.safeParse({ checks: { press } }).success
    const finds = (die: number): object => ({ finds: { die } })
    expect([finds(0), finds(0.01), finds(0.99), finds(1)].map(isTaken)).toEqual([false, true, true, false])
    expect([0, 0.001, 0.5, 0.51].map((falseAlarm) => isTaken({ falseAlarm }))).toEqual([false, true, true, false])
  })
  test('no section and no figure that there is not', () => {
    for (const wrong of [
      { colour: {} },
      { prior: { luck: 0.1 } },
      { told: { luck: 0.1 } },
      { checks: { press: { luck: 1 } } },
    ])
      expect(assumptionsSchema.safeParse(wrong).success).toBe(false)
  })
})

describe('one figure changes that alone', () => {
  test.each([
    { prior: { die: 0.5 } },
    { fails: { leak: 0.5 } },
    { patch: { stepMm: 3.5 } },
    { severity: { 'rail-weak': 0.123 } },
    { core: { whole: 0.123 } },
    { bite: { full: 0.123 } },
    { told: { reported: 0.123 } },
    { signature: { die: looks } },
    { evidence: { residueElsewhere: 0.123 } },
    { cost: { minutesPerCoreLift: 123 } },
    { risk: { coreDamage: 0.123 } },
    { checks: { press: { falseAlarm: 0.123 } } },
    { cures: { replaceDie: 0.123 } },
  ])('%j', (over) => {
    for (const [section, figures] of Object.entries(over)) {
      const shipped = Object.entries(defaultAssumptions).find(([name]) => name === section)?.[1]
      expect(withAssumptions(over)).toEqual({ ...defaultAssumptions, [section]: { ...shipped, ...figures } })
    }
  })
  test('none, none', () => {
    expect(withAssumptions(undefined)).toEqual(defaultAssumptions)
    expect(withAssumptions({})).toEqual(defaultAssumptions)
  })
  test('each shipped one has its reason and its source', () => {
    for (const section of [...Object.values(shippedAssumptions), ...Object.values(shippedPriceBook)])
      for (const { reason, source } of Object.values(section)) expect([reason, source]).not.toContain('')
  })
})

describe('the price book', () => {
  test.each<[string, string, number]>([
    ['money', 'hourlyRate', 1e6],
    ['money', 'minutesPerComeback', 1e4],
    ['minutes', 'reball', 1e4],
    ['materials', 'fluxPerPass', 1e6],
  ])('%s.%s from 0 to %d', (section, name, most) => {
    const isTaken = (value: number): boolean => priceBookSchema.safeParse({ [section]: { [name]: value } }).success
    expect([-1, 0, most, most + 1].map(isTaken)).toEqual([false, true, true, false])
  })
  test('has no pace and nothing else of its own to set', () => {
    for (const wrong of [
      { pace: { core: 2 } },
      { money: { tip: 1 } },
      { minutes: { tip: 1 } },
      { materials: { tip: 1 } },
    ])
      expect(priceBookSchema.safeParse(wrong).success).toBe(false)
  })
  test.each([{ money: { priceCore: 99 } }, { minutes: { reball: 99 } }, { materials: { wickPerSite: 99 } }])(
    '%j changes that alone',
    (over) => {
      for (const [section, figures] of Object.entries(over)) {
        const shipped = Object.entries(defaultPriceBook).find(([name]) => name === section)?.[1]
        const book = { ...defaultPriceBook, [section]: { ...shipped, ...figures } }
        expect(pricesOf(defaultAssumptions, over).book).toEqual(book)
      }
    },
  )
  test('goes at the shop’s pace: a lift that takes twice as long as shipped is work at twice the pace', () => {
    const { minutesPerCoreLift, minutesPerMemoryLift, minutesPerOtherLift } = defaultAssumptions.cost
    const cost = {
      minutesPerCoreLift: 2 * minutesPerCoreLift,
      minutesPerMemoryLift: 3 * minutesPerMemoryLift,
      minutesPerOtherLift: minutesPerOtherLift / 2,
    }
    expect(paceBy({ cost })).toEqual({ core: 2, memory: 3, other: 0.5 })
  })
})
