/** One file there and back; what is wrong with a packed case is told, all at once, and nothing unpacks beyond its bounds. */
import fc from 'fast-check'
import { unzipSync, zipSync, type Zippable } from 'fflate'
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import splice from '../../boards/splice-6.json'
import { type Result, seededRandom } from '../../src/base/index.ts'
import { CASE_VERSION, type Case, isZip, loadCase, packCase, unpackCase, withFreshNames } from '../../src/case/index.ts'

function value<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

const faultsOf = (result: Result<unknown>): string[] =>
  result.ok ? [] : result.faults.map(({ path, found }) => `${path}: ${found}`)

const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]
const JPEG = [0xff, 0xd8, 0xff]
const heads = { 'image/png': PNG, 'image/jpeg': JPEG } as const

const photo = (id: string, bytes: number, type: keyof typeof heads = 'image/png') => ({
  id,
  name: `${id} of the card`,
  type,
  bytes,
  widthPx: 4,
  heightPx: 3,
  side: 'top',
})

const caseOf = (fields: Readonly<Record<string, unknown>> = {}): Case =>
  value(
    loadCase({ format: 'liftmap-case', version: CASE_VERSION, title: 'a card', board: { inline: splice }, ...fields }),
  )

const png = (length: number, seed = 7): Uint8Array => Uint8Array.from({ length }, (_, i) => PNG[i] ?? (i * seed) % 251)

const two = caseOf({ photos: [photo('a', 40), photo('b', 30)], reports: [{ name: 'run', path: 'reports/r-1.txt' }] })
const filesOfTwo = new Map([
  ['a', png(40)],
  ['b', png(30)],
  ['reports/r-1.txt', new TextEncoder().encode('lane,errors\n')],
])
const packedTwo = value(packCase(two, filesOfTwo))

/** The packed case with some entries changed, added or, with undefined, left out. */
function repacked(changes: Readonly<Record<string, Uint8Array | undefined>>): Uint8Array {
  const entries: Zippable = {}
  for (const [name, bytes] of Object.entries({ ...unzipSync(packedTwo), ...changes })) {
    if (bytes !== undefined) entries[name] = bytes
  }
  return zipSync(entries, { mtime: '1990-01-01' })
}

const withCase = (fields: Readonly<Record<string, unknown>>): Uint8Array =>
  repacked({ 'case.json': new TextEncoder().encode(JSON.stringify({ ...two, ...fields })) })

/** @param change of the bytes at the place where a text or a signature stands for the last time */
function spoilt(
  mark: readonly number[],
  change: (bytes: Uint8Array, at: number) => void,
  from = packedTwo,
): Uint8Array {
  const bytes = from.slice()
  const at = bytes.findLastIndex((_, i) => mark.every((byte, k) => bytes[i + k] === byte))
  if (at < 0) throw new Error('no such place')
  change(bytes, at)
  return bytes
}

const CENTRAL = [0x50, 0x4b, 1, 2]
const END = [0x50, 0x4b, 5, 6]

const someCase = fc
  .record({
    title: fc.string({ minLength: 1, maxLength: 40 }).filter((text) => text.trim() !== ''),
    account: fc.string({ maxLength: 200, unit: 'grapheme' }),
    photos: fc.uniqueArray(fc.tuple(fc.stringMatching(/^[a-z0-9-]{1,20}$/), fc.uint8Array({ maxLength: 3000 })), {
      maxLength: 4,
      selector: ([id]) => id,
    }),
    kind: fc.constantFrom('image/png' as const, 'image/jpeg' as const),
    reports: fc.uniqueArray(fc.tuple(fc.stringMatching(/^[a-z0-9-]{1,20}$/), fc.string({ maxLength: 2000 })), {
      maxLength: 3,
      selector: ([id]) => id,
    }),
  })
  .map(({ title, account, photos, kind, reports }) => {
    const files = new Map<string, Uint8Array>()
    for (const [id, bytes] of photos) files.set(id, Uint8Array.from([...heads[kind], ...bytes]))
    for (const [id, text] of reports) files.set(`reports/${id}.txt`, new TextEncoder().encode(text))
    const caseFile = caseOf({
      title,
      arrival: { account },
      photos: photos.map(([id, bytes]) => photo(id, bytes.length + heads[kind].length, kind)),
      reports: reports.map(([id]) => ({ name: id, path: `reports/${id}.txt` })),
    })
    return { caseFile, files }
  })

test('packing, then unpacking gives the case and every file back', () => {
  fc.assert(
    fc.property(someCase, ({ caseFile, files }) => {
      const unpacked = value(unpackCase(value(packCase(caseFile, files))))
      expect(unpacked.caseFile).toEqual(caseFile)
      expect(unpacked.files).toEqual(files)
    }),
    { seed: 11, numRuns: 40 },
  )
})

// fflate's own reader is not the one of this program, and the fixture was written by Python's zipfile to a stream that can't
// be wound back: its entries carry their sizes behind them, and it lists the folders
test('another reader opens what was packed here, and what another writer packed opens here', () => {
  const entries = unzipSync(packedTwo)
  expect(Object.keys(entries).toSorted()).toEqual(['case.json', 'photos/a.png', 'photos/b.png', 'reports/r-1.txt'])
  expect(entries['photos/a.png']).toEqual(png(40))
  const streamed = value(unpackCase(readFileSync('tests/fixtures/exchange/streamed.case.zip')))
  expect(streamed.caseFile.title).toBe('packed by another program')
  expect([...streamed.files.keys()]).toEqual(['photo-1', 'reports/run-1.txt'])
  expect(new TextDecoder().decode(streamed.files.get('reports/run-1.txt'))).toBe('lane,errors\nU2.A,3\n')
})

test('the same case packs to the same bytes', () => {
  expect(value(packCase(two, filesOfTwo))).toEqual(packedTwo)
  expect(isZip(packedTwo)).toBe(true)
})

test('packing tells each file that is missing or not as the case says, and a board that is not inside', () => {
  const beside = { ...two, board: { path: 'splice-6.json' } }
  expect(faultsOf(packCase(beside, new Map([['a', png(41)]])))).toEqual([
    '$.photos[0].bytes: 40',
    '$.photos[1]: no file',
    '$.reports[0].path: no file',
    '$.board: a board beside the case',
  ])
})

test('all that is wrong with the entries is told at once', () => {
  const wrong = repacked({
    'photos/a.png': png(41),
    'photos/b.png': undefined,
    'reports/r-1.txt': undefined,
    'notes.txt': png(9),
    '../outside.png': png(9),
  })
  expect(faultsOf(unpackCase(wrong))).toEqual([
    'case.json $.photos[1]: no entry photos/b.png',
    'case.json $.reports[0].path: no entry reports/r-1.txt',
    'notes.txt: an entry that the case does not name',
    '../outside.png: an entry that the case does not name',
    'case.json $.photos[0].bytes: 40',
  ])
})

test('a case with faults is told by its paths, and one of a newer Liftmap by its version', () => {
  expect(faultsOf(unpackCase(withCase({ card: 7, marks: 'none' })))).toEqual([
    'case.json $.card: 7',
    'case.json $.marks: "none"',
  ])
  expect(faultsOf(unpackCase(withCase({ version: 99 })))).toEqual(['case.json $.version: 99'])
  expect(faultsOf(unpackCase(withCase({ board: { path: 'x.json' } })))).toEqual([
    'case.json $.board: a board beside the case',
  ])
  expect(faultsOf(unpackCase(withCase({ reports: [{ name: 'r', path: '../../secret' }] })))).toContain(
    'case.json $.reports[0].path: ../../secret',
  )
})

test('two photos of one name, and bytes of another kind than the case says, are told', () => {
  expect(faultsOf(unpackCase(withCase({ photos: [photo('a', 40), photo('a', 40), photo('b', 30)] })))).toEqual([
    'case.json $.photos[1].id: a a second time',
  ])
  const text = new TextEncoder().encode('<script>alert(1)</script>'.padEnd(40))
  expect(faultsOf(unpackCase(repacked({ 'photos/a.png': text })))).toEqual([
    'photos/a.png: bytes of another kind of file',
  ])
})

test.each([
  ['nothing', new Uint8Array(), 'the file: bytes that are no zip file'],
  [
    'garbage',
    new TextEncoder().encode('not a zip at all, only words'.repeat(9)),
    'the file: bytes that are no zip file',
  ],
  ['a file cut in the middle', packedTwo.slice(0, packedTwo.length / 2), 'the file: a zip file whose end is missing'],
  [
    'a zip of something else',
    zipSync({ 'a.txt': new Uint8Array(3) }, { mtime: '1990-01-01' }),
    'case.json: no such entry',
  ],
  ['an encrypted entry', spoilt(CENTRAL, (b, at) => b.set([1], at + 8)), 'reports/r-1.txt: an encrypted entry'],
  ['an unknown method', spoilt(CENTRAL, (b, at) => b.set([12], at + 10)), 'reports/r-1.txt: packing method 12'],
  ['a 64-bit one', spoilt(END, (b, at) => b.set([255, 255], at + 10)), 'the file: a zip file of the 64-bit kind'],
  ['several volumes', spoilt(END, (b, at) => b.set([1], at + 4)), 'the file: one of several volumes'],
  ['too many entries', spoilt(END, (b, at) => b.set([0, 9, 0, 9], at + 8)), 'the file: 2304 entries'],
  [
    'a list elsewhere',
    spoilt(END, (b, at) => b.set([9], at + 16)),
    'the file: a list of entries that is not where it says',
  ],
])('%s is told in a sentence', (_, bytes, sentence) => {
  expect(faultsOf(unpackCase(bytes))[0]).toBe(sentence)
})

test('a byte that was flipped in a photo or in the case does not pass', () => {
  const inPhoto = spoilt([...PNG], (b, at) => b.set([(b[at + 20] ?? 0) ^ 1], at + 20))
  expect(faultsOf(unpackCase(inPhoto))).toEqual(['photos/b.png: bytes that do not fit their checksum'])
})

test('an entry that lies about its size is refused before or while it unpacks', () => {
  const claims = (size: number) => spoilt(CENTRAL, (b, at) => new DataView(b.buffer).setUint32(at + 24, size, true))
  expect(faultsOf(unpackCase(claims(900_000_000)))[0]).toMatch(
    /^reports\/r-1.txt: \d+ bytes that are said to hold 900000000/,
  )
  expect(faultsOf(unpackCase(claims(5)))).toEqual(['reports/r-1.txt: more bytes than it says'])
  expect(faultsOf(unpackCase(claims(500)))).toEqual(['reports/r-1.txt: 12 bytes'])
})

test('what would unpack to too much is refused for its size before anything is unpacked', () => {
  const random = seededRandom(3)
  const seeded = Uint8Array.from({ length: 250_000 }, () => random.next() * 256)
  const packed = zipSync({ 'case.json': [seeded, { level: 1 }] }, { mtime: '1990-01-01' })
  const claims = (size: number) =>
    spoilt(CENTRAL, (b, at) => new DataView(b.buffer).setUint32(at + 24, size, true), packed)
  expect(faultsOf(unpackCase(claims(210_000_000)))).toEqual(['case.json: 210 MB when unpacked'])
})

test('entries that share their bytes, as bombs do, are refused', () => {
  const shared = spoilt(CENTRAL, (b, at) => {
    const view = new DataView(b.buffer)
    const first = b.findIndex((_, i) => CENTRAL.every((byte, k) => b[i + k] === byte))
    view.setUint32(at + 42, view.getUint32(first + 42, true), true)
  })
  expect(unpackCase(shared).ok).toBe(false)
})

test('however a packed case is spoilt, unpacking answers and never throws', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.nat(packedTwo.length - 1), fc.nat(255)), { minLength: 1, maxLength: 12 }),
      fc.nat(40),
      fc.nat(3),
      (flips, cut, where) => {
        const bytes = packedTwo.slice(where === 0 ? cut : 0, where === 1 ? packedTwo.length - cut : packedTwo.length)
        // near the end lies the list of entries, where a change does most
        for (const [at, byte] of flips) bytes[where === 2 ? bytes.length - 1 - (at % 400) : at % bytes.length] = byte
        const result = unpackCase(bytes)
        if (result.ok) expect(result.value.caseFile).toEqual(two)
        else expect(result.faults.length).toBeGreaterThan(0)
      },
    ),
    { seed: 5, numRuns: 1500 },
  )
})

test('an imported case gets names of its own for its files, wherever it names them', () => {
  const mark = { kind: 'residue', id: 'r', side: 'top', at: { x: 1, y: 1 }, radiusMm: 2, photo: 'a' }
  let ids = 0
  const fresh = withFreshNames({ caseFile: caseOf({ ...two, marks: [mark] }), files: filesOfTwo }, () => `new-${++ids}`)
  expect(fresh.caseFile.photos.map(({ id }) => id)).toEqual(['new-1', 'new-2'])
  expect(fresh.caseFile.marks[0]).toMatchObject({ photo: 'new-1' })
  expect(fresh.caseFile.reports[0]?.path).toBe('reports/new-3.txt')
  expect([...fresh.files.keys()]).toEqual(['new-1', 'new-2', 'reports/new-3.txt'])
  expect(fresh.files.get('new-2')).toEqual(filesOfTwo.get('b'))
})
