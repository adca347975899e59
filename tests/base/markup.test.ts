/** Text in XML and HTML: nothing in it can break the file, whatever a name holds. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { escapeMarkup } from '../../src/base/index.ts'

/** Char of XML 1.0 (W3C, Extensible Markup Language, fifth edition, 2008, production 2), by code point. */
const isXmlCharacter = (code: number): boolean =>
  code === 9 ||
  code === 10 ||
  code === 13 ||
  (code >= 0x20 && code <= 0xd7ff) ||
  (code >= 0xe000 && code <= 0xfffd) ||
  (code >= 0x1_0000 && code <= 0x10_ffff)

test('markup is told as text', () => {
  expect(escapeMarkup(`<b title="x">R&D's</b>`)).toBe('&lt;b title=&quot;x&quot;&gt;R&amp;D&#39;s&lt;/b&gt;')
})

test('of any text every character is one that XML holds, and it can be put into an address', () => {
  fc.assert(
    fc.property(
      fc.string({ unit: 'binary' }),
      fc.constantFrom('', '\ud800', '\udc00', '\u0001', '\ufffe'),
      (text, odd) => {
        const escaped = escapeMarkup(`${odd}${text}${odd}`)
        expect(Array.from(escaped).every((each) => isXmlCharacter(each.codePointAt(0) ?? 0))).toBe(true)
        expect(() => encodeURIComponent(escaped)).not.toThrow()
      },
    ),
  )
})
