/** The code of a case: its check character by the published scheme, its letters told apart by eye, its picture read by a camera. */
import { fc, test as property } from '@fast-check/vitest'
import { expect, test } from 'vitest'
import { decodeQR } from 'qr/decode.js'
import { checkCharacter, codeFor, codeWords, intakeSlip, readCode } from '../../src/case/index.ts'
import { openFull } from '../support/recordCase.ts'

/**
 * ISO/IEC 7064:2003, MOD 37,36. The first is the example of the Global Release Identifier, which uses that scheme (IFPI, GRid
 * Standard, A1-2425G-ABC1234002-M). The second by hand, P from 36 on, with A = 10 and B = 11:
 * 36 + 1 = 37 → 1 → 2; 2 + 2 = 4 → 8; 8 + 3 = 11 → 22; 22 + 10 = 32 → 64 − 37 = 27; 27 + 11 = 38 → 2 → 4;
 * 4 + c is 1 over a multiple of 36 for c = 33, which is X.
 */
test.each([
  ['A12425GABC1234002', 'M'],
  ['123AB', 'X'],
])('the check character of %s is %s', (text, check) => {
  expect(checkCharacter(text)).toBe(check)
})

test('what is neither a digit nor a capital letter has no check character', () => {
  expect(checkCharacter('12-3')).toBeUndefined()
  expect(checkCharacter('ab')).toBeUndefined()
})

const LOOK_ALIKE = /[0OQ1IL2Z5S8BGUV]/

property.prop([fc.string({ maxLength: 40 })], { seed: 11 })(
  'a code has eight letters that nobody takes for another, and the same case always has the same',
  (id) => {
    const code = codeFor(id)
    expect(code).toMatch(/^[0-9A-Z]{8}$/)
    expect(code).not.toMatch(LOOK_ALIKE)
    expect(checkCharacter(code.slice(0, 7))).toBe(code[7])
    expect(codeFor(id)).toBe(code)
    expect(readCode(` ${codeWords(code).toLowerCase()} `)).toEqual({ kind: 'code', code })
  },
)

const OTHERS = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ'.split('')

property.prop([fc.string({ maxLength: 20 }), fc.nat({ max: 7 }), fc.constantFrom(...OTHERS)], {
  seed: 12,
  numRuns: 300,
})('one wrong character is always noticed', (id, at, other) => {
  const code = codeFor(id)
  fc.pre(code[at] !== other)
  expect(readCode(code.slice(0, at) + other + code.slice(at + 1))).toEqual({ kind: 'misread' })
})

test('a thousand cases have a thousand codes', () => {
  expect(new Set(Array.from({ length: 1000 }, (_, i) => codeFor(`case ${i}`))).size).toBe(1000)
})

test.each(['', 'mira', 'wept fitting', '7KT4-MXP', 'U12 U13 U14'])('%j is no code', (typed) => {
  expect(readCode(typed)).toEqual({ kind: 'none' })
})

/** Rectangles of the path, `Mx yhLv1h-Lz`, painted at so many px a module. */
function painted(svg: string, modulePx: number) {
  const size = Number(/viewBox="0 0 (\d+)/.exec(svg)?.[1])
  const side = size * modulePx
  const data = new Uint8ClampedArray(4 * side * side).fill(255)
  for (const [, x, y, length] of svg.matchAll(/M(\d+) (\d+)h(\d+)v1/g)) {
    for (let row = Number(y) * modulePx; row < (Number(y) + 1) * modulePx; row++) {
      const from = row * side + Number(x) * modulePx
      for (let at = from; at < from + Number(length) * modulePx; at++) data.fill(0, 4 * at, 4 * at + 3)
    }
  }
  return { width: side, height: side, data }
}

/** The same in the view of a camera that looks askew: turned, a tenth larger at one end than in the middle and a tenth smaller at the other. */
function askew({ width: side, data }: ReturnType<typeof painted>, turnDeg: number, keystone: number) {
  const [width, height] = [640, 480]
  const seen = new Uint8ClampedArray(4 * width * height).fill(255)
  const [cos, sin] = [Math.cos((turnDeg * Math.PI) / 180), Math.sin((turnDeg * Math.PI) / 180)]
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const [u, v] = [x - width / 2, y - height / 2]
      const nearness = 1 + (keystone * v) / side
      const i = Math.floor((u * cos + v * sin) / nearness + side / 2)
      const j = Math.floor((v * cos - u * sin) / nearness + side / 2)
      const isOn = i >= 0 && j >= 0 && i < side && j < side
      seen.fill(isOn ? (data[4 * (j * side + i)] ?? 0) : 150, 4 * (y * width + x), 4 * (y * width + x) + 3)
    }
  }
  return { width, height, data: seen }
}

const { code } = intakeSlip({ ...(await openFull()), today: '2026-03-20' })

const reads = (seen: ReturnType<typeof askew>): boolean => {
  try {
    return decodeQR(seen, { effort: Infinity, timeLimit: 1000 }) === code?.words.replace('-', '')
  } catch {
    return false
  }
}

/** One picture of a stream each: what one misses, the next may read. */
test.each([
  [0.1, 24],
  [0.2, 20],
])('turned any way and held askew by %d, it is read in at least %i of 24 pictures', (keystone, least) => {
  const turns = Array.from({ length: 24 }, (_, i) => 15 * i)
  const read = turns.filter((turnDeg) => reads(askew(painted(code?.svg ?? '', 6), turnDeg, keystone)))
  expect(read.length).toBeGreaterThanOrEqual(least)
})

test('the picture on the slip holds the code and nothing else, as a reader of QR codes finds it', () => {
  expect(code).toBeDefined()
  if (code === undefined) return
  expect(decodeQR(painted(code.svg, 4))).toBe(code.words.replace('-', ''))
})
