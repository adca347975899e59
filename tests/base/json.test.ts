import fc from 'fast-check'
import { expect, test } from 'vitest'
import { z } from 'zod'
import { faultsFromZod, parseJson, sayFault, showValue } from '../../src/base/index.ts'

test('fifty megabytes of brackets are refused at once, with the line', () => {
  const read = parseJson('['.repeat(50 * 1024 * 1024), 'card.json')
  expect(read.ok).toBe(false)
  if (!read.ok) expect(read.faults[0]?.path).toBe('card.json, line 1')
})

test.each(['{"__proto__": {"side": "top"}}', '{"parts": [{"constructor": 1}]}'])(
  'a key that reaches a prototype is refused: %s',
  (text) => {
    const read = parseJson(text)
    expect(read.ok).toBe(false)
    expect(Reflect.get({}, 'side')).toBeUndefined()
  },
)

test('a byte order mark before the text is no fault', () => {
  expect(parseJson('\ufeff{"a": 1}')).toEqual({ ok: true, value: { a: 1 } })
})

test('text that is no JSON is not quoted, for it may be any file of the machine; its place is told', () => {
  const read = parseJson('hidden:x:0:0:hidden words', 'card.json')
  expect(read.ok || read.faults.map(sayFault).join()).toMatch(/text that is no JSON/)
  expect(read.ok || read.faults.map(sayFault).join()).not.toMatch(/hidden/)
  const broken = parseJson('{"a": 1,\n "b": secret}')
  expect(broken.ok || broken.faults[0]?.found).toMatch(/line 2, character 7|^text that is no JSON$/)
  expect(broken.ok || broken.faults.map(sayFault).join()).not.toMatch(/secret/)
})

test('any text gives a value or a fault, never a throw', () => {
  const answer = (text: string): boolean => {
    const read = parseJson(text)
    return read.ok || read.faults.every((fault) => sayFault(fault).length > 10)
  }
  expect(fc.check(fc.property(fc.oneof(fc.string(), fc.json()), answer), { seed: 4 }).failed).toBe(false)
})

test('every fault of a parse is told with its path, what stood there and what was expected', () => {
  const schema = z.strictObject({
    side: z.enum(['top', 'bottom']),
    parts: z.array(z.strictObject({ ref: z.string(), at: z.number().min(0) })),
  })
  const input = { side: 'left', parts: [{ ref: 7, at: -1, colour: 'red' }] }
  const parsed = schema.safeParse(input)
  expect(parsed.success).toBe(false)
  if (parsed.success) return
  expect(faultsFromZod(parsed.error, input).map(sayFault)).toEqual([
    '$.side: found "left", expected top or bottom.',
    '$.parts[0].ref: found 7, expected a string.',
    '$.parts[0].at: found -1, expected at least 0.',
    '$.parts[0].colour: found "red", expected no such field. Remove it, or look for a slip in its name.',
  ])
})

test('showing a value never throws and stays short', () => {
  fc.assert(
    fc.property(fc.anything({ withBigInt: true, withDate: true, withMap: true, withNullPrototype: true }), (value) => {
      expect(showValue(value).length).toBeLessThanOrEqual(80)
    }),
    { seed: 5 },
  )
})
