/**
 * Tables for spreadsheets, held to RFC 4180 (Y. Shafranovich, Common Format and MIME Type for Comma-Separated Values, 2005),
 * section 2, and read back by a reader that is not ours.
 */
import { fc, test as prop } from '@fast-check/vitest'
import Papa from 'papaparse'
import { describe, expect, test } from 'vitest'
import { csvText, type Invoice, invoiceCsv, invoiceSchema } from '../../src/case/index.ts'

describe('the rules of the RFC', () => {
  // rule 1, its own example
  test('1: each record on a line of its own, ended by CRLF', () => {
    expect(
      csvText(
        [
          ['aaa', 'bbb', 'ccc'],
          ['zzz', 'yyy', 'xxx'],
        ],
        ',',
      ),
    ).toBe('aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n')
  })

  test('4: spaces belong to a field, and no separator follows the last one', () => {
    expect(csvText([[' aaa ', '']], ',')).toBe(' aaa ,\r\n')
  })

  // rule 6, its own example: "aaa","b CRLF bb","ccc"
  test('6: a field with a line break, a quote or a comma stands in quotes', () => {
    expect(csvText([['aaa', 'b\r\nbb', 'c,c']], ',')).toBe('aaa,"b\r\nbb","c,c"\r\n')
  })

  // rule 7, its own example: "aaa","b""bb","ccc"
  test('7: a quote within a field is doubled', () => {
    expect(csvText([['aaa', 'b"bb', 'ccc']], ',')).toBe('aaa,"b""bb",ccc\r\n')
  })
})

prop.prop([
  fc.array(fc.array(fc.string({ unit: 'binary' }), { minLength: 3, maxLength: 3 }), { minLength: 1, maxLength: 6 }),
  fc.constantFrom(',' as const, ';' as const),
])('whatever stands in a field comes back as it was', (rows, separator) => {
  const read = Papa.parse<string[]>(csvText(rows, separator), { delimiter: separator, newline: '\r\n' })
  expect(read.data.slice(0, -1)).toEqual(rows)
})

const written = (change: Partial<Invoice> = {}): Invoice =>
  invoiceSchema.parse({
    number: '2026-0017',
    on: '2026-03-20',
    taxPct: 19,
    discountPct: 10,
    lines: [
      { what: 'Work at the bench', unit: 'minutes', quantity: 150, price: 60 },
      { what: 'memory, "same marking"', quantity: 2, price: 17.35 },
    ],
    ...change,
  })

test('an invoice row by row, with a byte order mark: 184.70 less 18.47 is 166.23, with 31.58 tax 197.81', () => {
  expect(invoiceCsv(written(), '0417', 'EUR', { decimalComma: false })).toBe(
    [
      '\uFEFFinvoice,day,card,row,line,what,quantity,unit,price,discount %,amount,currency',
      '2026-0017,2026-03-20,0417,line,1,Work at the bench,2.500,h,60.00,0.00,150.00,EUR',
      '2026-0017,2026-03-20,0417,line,2,"memory, ""same marking""",2.000,piece,17.35,0.00,34.70,EUR',
      '2026-0017,2026-03-20,0417,discount,,discount on all lines,,,,,-18.47,EUR',
      '2026-0017,2026-03-20,0417,net,,net,,,,,166.23,EUR',
      '2026-0017,2026-03-20,0417,tax,,tax 19.00 %,,,,,31.58,EUR',
      '2026-0017,2026-03-20,0417,total,,total,,,,,197.81,EUR',
      '',
    ].join('\r\n'),
  )
})

test('with a decimal comma fields are set apart by semicolons', () => {
  const [head, first] = invoiceCsv(written(), undefined, 'EUR', { decimalComma: true }).split('\r\n')
  expect(head).toContain('invoice;day;card')
  expect(first).toBe('2026-0017;2026-03-20;;line;1;Work at the bench;2,500;h;60,00;0,00;150,00;EUR')
})

// OWASP Application Security Verification Standard 5.0 (2025), requirement 1.2.10
test.each(['=1+2', '+1', '-1', '@SUM(A1)', '\t=1', '\0=1', '\r=1', '＝1'])(
  'typed text never begins a formula: %j',
  (what) => {
    const lines = [{ what, unit: 'piece' as const, quantity: 1, price: 1, discountPct: 0 }]
    const csv = invoiceCsv(written({ lines, number: what }), what, what, { decimalComma: false })
    const { data } = Papa.parse<string[]>(csv.slice(1), { delimiter: ',', newline: '\r\n' })
    const cells = data.flat()
    expect(cells.filter((cell) => cell === `'${what}`).length).toBeGreaterThan(3)
    // what is negative is a number of ours
    expect(cells.filter((cell) => /^[=+@\t\r\0＝-]/.test(cell) && !/^-\d+\.\d\d$/.test(cell))).toEqual([])
  },
)
