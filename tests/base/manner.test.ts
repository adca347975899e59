/** What is said follows the language and the manner of the shop: decimals, thousands, days, and US units beside. */
import { afterEach, expect, test } from 'vitest'
import {
  dayWords,
  decimals,
  joined,
  mannerSchema,
  millimetres,
  money,
  numberWords,
  percent,
  percentAtMost,
  readTypedNumber,
  say,
  sayData,
  sayName,
  sayParts,
  speak,
} from '../../src/base/index.ts'

afterEach(() => speak('en', {}))

test('English is said as it is written', () => {
  expect(say('Lift {ref} first', { ref: 'U1' })).toBe('Lift U1 first')
  expect(say('{count, plural, one {# ball} other {# balls}}', { count: 1200 })).toBe('1,200 balls')
  expect(say("don't")).toBe("don't")
})

test('another language says its own words, and English where it has none', () => {
  speak('de', { 'Lift {ref} first': 'Erst {ref} auslöten', empty: '' })
  expect(say('Lift {ref} first', { ref: 'U1' })).toBe('Erst U1 auslöten')
  expect(say('Wash {ref}', { ref: 'U1' })).toBe('Wash U1')
  expect(say('empty')).toBe('empty')
})

test('elements stand in a sentence where the language puts them', () => {
  speak('de', { 'lift {ref} at {airC}': 'bei {airC} {ref} auslöten' })
  const figure = { element: 304 }
  expect(sayParts('lift {ref} at {airC}', { ref: 'U1', airC: figure })).toEqual(['bei ', figure, ' U1 auslöten'])
})

test('names that the program goes by are said; one that the catalogue does not have is set in words', () => {
  expect(sayName('minutesPerCoreLift')).toBe('minutes per core lift')
  expect(sayName('rail-branch')).toBe('rail branch')
  speak('de', { 'rail branch': 'Zweig einer Schiene' })
  expect(sayName('rail-branch')).toBe('Zweig einer Schiene')
  expect(sayName('hourlyRate')).toBe('hourly rate')
})

test('shipped texts are said in the fields that people read, and nowhere else', () => {
  speak('de', { water: 'Wasser' })
  expect(sayData([{ id: 'water', name: 'water', source: 'water' }])).toEqual([
    { id: 'water', name: 'Wasser', source: 'water' },
  ])
})

test('points between thousands are not taken for decimals within a sentence', () => {
  speak('de', {})
  expect(say('{balls} balls of {mm} mm', { balls: numberWords(1936), mm: decimals(0.6, 1) })).toBe(
    '1.936 balls of 0,6 mm',
  )
})

test('what stands in place of a source is said, a source is not', () => {
  speak('de', { 'from memory': 'aus dem Gedächtnis', 'IPC-7711': 'x' })
  expect(sayData([{ source: 'from memory' }, { source: 'IPC-7711' }])).toEqual([
    { source: 'aus dem Gedächtnis' },
    { source: 'IPC-7711' },
  ])
})

test('German writes a comma before decimals and points between thousands', () => {
  speak('de', {})
  expect([percent(0.005), percentAtMost(0.2209), millimetres(0.8), numberWords(1234.5), money(1234.5, 'EUR')]).toEqual([
    '0,5 %',
    '22,1 %',
    '0,8 mm',
    '1.234,5',
    '1.234,50 EUR',
  ])
  expect(say('{mm} mm', { mm: 0.5 })).toBe('0,5 mm')
  expect(say('{mm} mm', { mm: decimals(0.5, 2) })).toBe('0,50 mm')
  expect(dayWords('2026-11-05')).toBe('5. November 2026')
})

test('the shop’s manner stands over the language', () => {
  speak('en', {}, mannerSchema.parse({ numbers: '1.234,5', days: '2026-11-05' }))
  expect(numberWords(1234.5)).toBe('1.234,5')
  expect(dayWords('2026-11-05')).toBe('2026-11-05')
  expect(joined(['a', 'b', 'c'])).toBe('a, b and c')
})

test.each([
  ['05.11.2026', '05.11.2026'],
  ['11/05/2026', '11/05/2026'],
  ['05/11/2026', '05/11/2026'],
  ['by language', '5 November 2026'],
])('a day written as %s', (days, words) => {
  speak('en', {}, mannerSchema.parse({ days }))
  expect(dayWords('2026-11-05')).toBe(words)
  expect(dayWords('soon')).toBe('soon')
})

// 304 °C is 304 · 9/5 + 32 = 579.2 °F; an inch is 25.4 mm (NIST SP 811, 2008, B.8).
test('US units stand beside the metric ones where they are wished', () => {
  speak('en', {}, mannerSchema.parse({ alsoUs: true }))
  expect(say('air {airC} °C', { airC: 304 })).toBe('air 304 °C (579 °F)')
  expect(say('{least} to {most} mm off', { least: 5, most: 12.7 })).toBe('5 to 12.7 mm (0.2 to 0.5 in) off')
  expect(say('at {rate} °C/s over {area} mm²', { rate: 3, area: 4 })).toBe('at 3 °C/s over 4 mm²')
  expect(say('air {airC} °C', { airC: -10 })).toBe('air -10 °C (14 °F)')
})

test('a sentence within a sentence gets its US units once, and a part of a longer number gets none', () => {
  speak('en', {}, mannerSchema.parse({ alsoUs: true }))
  const inner = say('{least} to {most} mm off', { least: 5, most: 12.7 })
  expect(say('{inner}, air {airC} °C', { inner, airC: 304 })).toBe(
    '5 to 12.7 mm (0.2 to 0.5 in) off, air 304 °C (579 °F)',
  )
  expect(say('{long} mm', { long: '1.234,5' })).toBe('1.234,5 mm')
})

test('what is typed is read as the manner writes it: a comma before three digits is a decimal one where decimals have one', () => {
  expect(readTypedNumber('1,200').ok).toBe(false)
  speak('de', {})
  expect(readTypedNumber('1,200')).toEqual({ ok: true, value: 1.2 })
  expect(readTypedNumber('0,5')).toEqual({ ok: true, value: 0.5 })
  expect(readTypedNumber(decimals(2.125, 3))).toEqual({ ok: true, value: 2.125 })
})
