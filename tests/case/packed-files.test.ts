/** Zip files that hold no case but files of a board. */
import { zipSync } from 'fflate'
import { expect, test } from 'vitest'
import { holdsCase, unpackFiles } from '../../src/case/index.ts'

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text)
const packed = zipSync({
  'out/a.csv': bytes('Ref,X,Y'),
  'out/b.net': bytes('999'),
  '__MACOSX/out/._a.csv': bytes('x'),
  '.DS_Store': bytes('x'),
})

test('holds a case where it lists one, and else files', () => {
  expect(holdsCase(zipSync({ 'case.json': bytes('{}') }))).toBe(true)
  expect(holdsCase(packed)).toBe(false)
})

test('files come out by name, without what systems add', () => {
  const files = unpackFiles(packed)
  expect(files.ok && files.value.map(({ name, bytes: own }) => [name, new TextDecoder().decode(own)])).toEqual([
    ['out/a.csv', 'Ref,X,Y'],
    ['out/b.net', '999'],
  ])
})

test('a cut one is refused', () => {
  expect(unpackFiles(packed.subarray(0, packed.length - 30))).toMatchObject({ ok: false })
})

test('one that would unpack to more than a small machine stands is refused before', () => {
  // two zeros a byte at least: 500 MB of zeros are half a megabyte
  const bomb = zipSync({ 'a.csv': new Uint8Array(250_000_000), 'b.csv': new Uint8Array(250_000_000) })
  expect(unpackFiles(bomb)).toMatchObject({ ok: false, faults: [{ found: '500 MB when unpacked' }] })
})

test('one of too many files is refused', () => {
  const many = zipSync(Object.fromEntries(Array.from({ length: 201 }, (_, i) => [`${i}.csv`, bytes('x')])))
  expect(unpackFiles(many)).toMatchObject({ ok: false, faults: [{ found: '201 entries' }] })
})
