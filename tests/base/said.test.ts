/** What is said can be said: each message is a literal in the ICU message syntax, and gets the values that it names. */
import { IntlMessageFormat } from 'intl-messageformat'
import { expect, test } from 'vitest'
import { placeholdersOf } from '../support/placeholders.ts'
import { languages } from '../../src/base/index.ts'
import { type Said, saidBelow } from '../support/said.ts'
import { catalogueOf, messagesByPage } from '../support/words.ts'

const said = saidBelow('src')
const at = ({ file, line, message }: Said): string => `${file}:${line} ${message ?? ''}`

test('every message is a literal, so that a catalogue can hold it', () => {
  expect(said.length).toBeGreaterThan(1000)
  expect(said.filter(({ message }) => message === undefined).map(at)).toEqual([])
})

test('every message is given the values that it names, and no others', () => {
  const wrong = said.filter(({ message = '', values }) => {
    const named = placeholdersOf(message)
    if (named === undefined) return true
    return values !== undefined && named.join() !== [...new Set(values)].toSorted().join()
  })
  expect(wrong.map(at)).toEqual([])
})

test.each(languages.filter((language) => language !== 'en'))(
  '%s says every message, with the same values',
  (language) => {
    const pages = catalogueOf(language)
    const wrong = [...messagesByPage()].filter(([message, page]) => {
      const text = pages.get(page)?.[message] ?? ''
      return text.trim() === '' || placeholdersOf(text)?.join() !== placeholdersOf(message)?.join()
    })
    expect(wrong).toEqual([])
  },
)

test.each(languages.filter((language) => language !== 'en'))('%s holds nothing that nobody says', (language) => {
  const pages = messagesByPage()
  const left = [...catalogueOf(language)].flatMap(([page, texts]) =>
    Object.keys(texts).filter((message) => pages.get(message) !== page),
  )
  expect(left).toEqual([])
})

test('a placeholder is found in each branch of a plural', () => {
  expect(placeholdersOf('{n, plural, one {# ball of {ref}} other {# balls}} and {other}')).toEqual([
    'n',
    'other',
    'ref',
  ])
  expect(placeholdersOf('{n, plural, one {# ball}')).toBeUndefined()
  expect(new IntlMessageFormat('{n, plural, one {# ball} other {# balls}}', 'en-GB').format({ n: 1200 })).toBe(
    '1,200 balls',
  )
})
