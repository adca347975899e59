/**
 * What the March tests detect, held to the published table of fault coverage: A. J. van de Goor, Testing Semiconductor
 * Memories: Theory and Practice, Wiley 1991, and Using march tests to test SRAMs, IEEE Design & Test of Computers 10(1),
 * 1993. MATS+ detects all address-decoder and stuck-at faults, not all transition or coupling faults; March C- detects
 * address-decoder, stuck-at, transition and unlinked inversion, idempotent and state coupling faults.
 */
import { describe, expect, it } from 'vitest'
import {
  type CellFault,
  cellMemory,
  type MarchTest,
  marchCMinus,
  matsPlus,
  runMarch,
} from '../../src/rehearsal/index.ts'

const WORDS = 6
const BIT = 5

function detects(test: MarchTest, fault: CellFault): boolean {
  let bad = 0
  runMarch(test, cellMemory(WORDS, [fault]), () => bad++)
  return bad > 0
}

const words = Array.from({ length: WORDS }, (_, word) => word)
const values = [0, 1] as const
const pairs = words.flatMap((word) => words.filter((other) => other !== word).map((other) => ({ word, other })))

const faults: Readonly<Record<string, readonly CellFault[]>> = {
  stuck: words.flatMap((word) => values.map((value): CellFault => ({ kind: 'stuck', word, bit: BIT, value }))),
  transition: words.flatMap((word) =>
    values.map((value): CellFault => ({ kind: 'transition', word, bit: BIT, value })),
  ),
  inversion: pairs.flatMap(({ word, other }) =>
    (['rise', 'fall'] as const).map(
      (on): CellFault => ({ kind: 'inversion', word, bit: BIT, on, victim: { word: other, bit: BIT } }),
    ),
  ),
  idempotent: pairs.flatMap(({ word, other }) =>
    (['rise', 'fall'] as const).flatMap((on) =>
      values.map(
        (value): CellFault => ({ kind: 'idempotent', word, bit: BIT, on, value, victim: { word: other, bit: BIT } }),
      ),
    ),
  ),
  state: pairs.flatMap(({ word, other }) =>
    values.flatMap((held) =>
      values.map(
        (value): CellFault => ({
          kind: 'state',
          word,
          bit: BIT,
          while: held,
          value,
          victim: { word: other, bit: BIT },
        }),
      ),
    ),
  ),
  address: [
    ...words.map((word): CellFault => ({ kind: 'address', word, opens: [] })),
    ...pairs.map(({ word, other }): CellFault => ({ kind: 'address', word, opens: [other] })),
    ...pairs.map(({ word, other }): CellFault => ({ kind: 'address', word, opens: [word, other] })),
  ],
}

const found = (test: MarchTest, kind: string): number =>
  (faults[kind] ?? []).filter((fault) => detects(test, fault)).length

describe('March tests', () => {
  it('find nothing in a memory without faults', () => {
    for (const test of [marchCMinus, matsPlus]) {
      let bad = 0
      runMarch(test, cellMemory(WORDS, []), () => bad++)
      expect(bad).toBe(0)
    }
  })

  it.each(['stuck', 'transition', 'inversion', 'idempotent', 'state', 'address'])(
    'March C- detects every unlinked fault of the kind %s',
    (kind) => {
      expect(found(marchCMinus, kind)).toBe(faults[kind]?.length)
    },
  )

  it.each(['stuck', 'address'])('MATS+ detects every fault of the kind %s', (kind) => {
    expect(found(matsPlus, kind)).toBe(faults[kind]?.length)
  })

  it.each(['transition', 'inversion', 'idempotent', 'state'])('MATS+ misses some faults of the kind %s', (kind) => {
    expect(found(matsPlus, kind)).toBeLessThan(faults[kind]?.length ?? 0)
  })

  it('walk 10 and 5 operations a word', () => {
    const operations = (test: MarchTest): number => test.elements.reduce((sum, each) => sum + each.operations.length, 0)
    expect([operations(marchCMinus), operations(matsPlus)]).toEqual([10, 5])
  })
})
