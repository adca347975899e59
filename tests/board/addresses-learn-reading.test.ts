/** Lines of address and label: what is read, and what is refused with its line. */
import { describe, expect, test } from 'vitest'
import { readObservations } from '../../src/board/index.ts'

const faultsOf = (text: string): string[] => {
  const read = readObservations(text)
  return read.ok ? [] : read.faults.map(({ path, expected }) => `${path}: ${expected}`)
}

test('hexadecimal and decimal, a header, comments, empty lines, quotes, any line ends and separators', () => {
  const read = readObservations('\ufeffaddress,label\r\n0x1F400,U5\n\n# noted on Monday\r128000;"U 6"\n0x10\tU5')
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  expect([...read.value.addresses]).toEqual([0x1f400, 128000, 16])
  expect(read.value.labels).toEqual(['U5', 'U 6'])
  expect([...read.value.labelOf]).toEqual([0, 1, 0])
  expect([...read.value.lines]).toEqual([2, 5, 6])
})

test('the largest address has 52 bits', () => {
  const read = readObservations('0xfffffffffffff,U5\n4503599627370495,U5\n0x000000fffffffffffff,U5')
  expect(read.ok && new Set(read.value.addresses)).toEqual(new Set([2 ** 52 - 1]))
})

test.each([
  ['0x10000000000000,U5', 'line 1: an address of at most 52 bits'],
  ['4503599627370496,U5', 'line 1: an address of at most 52 bits'],
  [`0x${'f'.repeat(5000)},U5`, 'line 1: an address of at most 52 bits'],
  [`${'9'.repeat(400)},U5`, 'line 1: an address of at most 52 bits'],
  ['0x1,U5\n-4,U5', 'line 2: an address such as 0x1f400 or 128000'],
  ['0x1,U5\n1e9,U5', 'line 2: an address such as 0x1f400 or 128000'],
  ['0x1,U5\n1f400,U5', 'line 2: an address such as 0x1f400 or 128000'],
  ['0x1,U5\n0x2', 'line 2: a label after the address, such as 0x1f400,U5'],
  ['0x1,U5\n0x2,', 'line 2: a label such as U5, ?a or !U5'],
  ['0x1,?', 'line 1: a label such as U5, ?a or !U5'],
  ['0x1,U5,U6', 'line 1: two fields, address and label'],
  ['0x1,"U5', 'line 1: a label whose quotes end with the line'],
  ['0x1,U5\u0000', 'line 1: a label of printable characters'],
  [`0x1,${'U'.repeat(81)}`, 'line 1: a label of at most 80'],
  ['', 'line 1: lines such as 0x1f400,U5'],
  ['address,label\n', 'line 1: lines such as 0x1f400,U5'],
])('%j is refused', (text, fault) => {
  expect(faultsOf(text)).toEqual([fault])
})

describe('much of it', () => {
  test('a million broken lines end after 20 faults, and the last says so', () => {
    const read = readObservations('nothing\n'.repeat(1_000_000))
    expect(read.ok).toBe(false)
    const faults = read.ok ? [] : read.faults
    expect(faults.map(({ path }) => path)).toEqual(Array.from({ length: 20 }, (_, i) => `line ${i + 1}`))
    expect(faults.at(-1)?.todo).toContain('stopped')
  })

  test('more labels than a card could have channels', () => {
    const rows = Array.from({ length: 5000 }, (_, i) => `${i},U${i}`)
    expect(faultsOf(rows.join('\n'))).toEqual(['line 4097: at most 4096 labels'])
  })

  test('labels that are names of an object’s own properties are labels', () => {
    const read = readObservations('1,__proto__\n2,constructor\n3,__proto__')
    expect(read.ok && [...read.value.labelOf]).toEqual([0, 1, 0])
  })
})
