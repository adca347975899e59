/** The stock as a file of values and back: RFC 4180 (2005) says CRLF ends a row, and quotes within quotes are doubled. */
import { describe, expect, it } from 'vitest'
import { sayFault } from '../../src/base/index.ts'
import { stockItemSchema } from '../../src/case/index.ts'
import { readStockCsv, stockCsv } from '../../src/view/stock/csv.ts'

const numbered = (): (() => string) => {
  let n = 0
  return () => `i${++n}`
}
const item = stockItemSchema.parse({
  id: 'i1',
  kind: 'memory',
  what: '8 Gbit, "fast"',
  package: '180-ball',
  count: 3,
  place: 'drawer 2',
  price: 14.5,
  source: 'donor',
  donor: '0391',
  donorRef: 'U7',
  takenOn: '2026-03-02',
  ordered: 4,
  expectedOn: '2026-04-01',
  note: 'line one\nline two',
})
const faultsOf = (text: string): string[] => {
  const read = readStockCsv(text, numbered())
  return read.ok ? [] : read.faults.map(sayFault)
}

describe('a list that goes out', () => {
  it('has a head, ends every row with CRLF, and doubles quotes (RFC 4180, 2.1 and 2.7)', () => {
    const text = stockCsv([item])
    expect(text.startsWith('kind,what,package,count,')).toBe(true)
    expect(text.endsWith('\r\n')).toBe(true)
    expect(text).toContain('"8 Gbit, ""fast"""')
    expect(text).toContain('"line one\nline two"')
  })

  it('comes back as it went', () => {
    const more = { ...item, id: 'i2', what: '=1+1', note: "'tis -5 V", price: undefined, place: '-12 V rail box' }
    const read = readStockCsv(stockCsv([item, more]), numbered())
    expect(read.ok && read.value).toEqual([item, more])
  })

  it('gives a spreadsheet nothing to work out', () => {
    expect(stockCsv([{ ...item, what: '=HYPERLINK("x")' }])).toContain(`"'=HYPERLINK(""x"")"`)
  })
})

describe('a list that comes in', () => {
  it('takes LF, a byte order mark, other orders of columns, a decimal comma in quotes, and columns that it does not know', () => {
    const text = '\uFEFFwhat,colour,Kind,count,price\nsolder balls 0.45 mm,grey,Material,5000,"0,01"\n\n'
    const read = readStockCsv(text, numbered())
    expect(read.ok && read.value).toMatchObject([
      { kind: 'material', what: 'solder balls 0.45 mm', count: 5000, price: 0.01, source: 'new' },
    ])
  })

  it('is refused whole, with every fault by its row', () => {
    const text = 'kind,what,count\nmemory,8 Gbit,2\nmemroy,8 Gbit,2\nmemory,,1\nmemory,x,many\n'
    expect(faultsOf(text).map((fault) => fault.slice(0, 5))).toEqual(['row 3', 'row 4', 'row 5'])
  })

  it('without its columns is told which are missing', () => {
    expect(faultsOf('part,amount\nx,1\n')[0]).toContain('kind, what and count are missing')
  })
})
