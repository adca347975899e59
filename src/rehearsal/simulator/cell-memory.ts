/** A memory with faulty cells of the classical kinds: stuck, transition, coupling, address decoder (van de Goor 1991). */
import type { TestedMemory } from './march-tests.ts'

interface Cell {
  readonly word: number
  readonly bit: number
}

export type CellFault =
  | ({ readonly kind: 'stuck'; readonly value: 0 | 1 } & Cell)
  /** Can't change to `value` by being written. */
  | ({ readonly kind: 'transition'; readonly value: 0 | 1 } & Cell)
  /** When the aggressor rises or falls, the victim is turned over. */
  | ({ readonly kind: 'inversion'; readonly on: 'rise' | 'fall'; readonly victim: Cell } & Cell)
  /** When the aggressor rises or falls, the victim takes `value`. */
  | ({ readonly kind: 'idempotent'; readonly on: 'rise' | 'fall'; readonly value: 0 | 1; readonly victim: Cell } & Cell)
  /** While the aggressor holds `while`, the victim holds `value`. */
  | ({ readonly kind: 'state'; readonly while: 0 | 1; readonly value: 0 | 1; readonly victim: Cell } & Cell)
  /** The address of `word` opens the words of `opens` in place of its own: none, another, or several, which read as their OR. */
  | { readonly kind: 'address'; readonly word: number; readonly opens: readonly number[] }

/** A memory of `words` words of 32 bits, all 0 at first, with faults. */
export function cellMemory(words: number, faults: readonly CellFault[]): TestedMemory {
  const stored = new Uint32Array(words)
  const own = new Map<number, CellFault[]>()
  const opened = new Map<number, readonly number[]>()
  const states = faults.filter((fault) => fault.kind === 'state')
  for (const fault of faults) {
    if (fault.kind === 'address') opened.set(fault.word, fault.opens)
    else own.set(fault.word, [...(own.get(fault.word) ?? []), fault])
  }

  const bitOf = ({ word, bit }: Cell): number => ((stored[word] ?? 0) >>> bit) & 1
  const setBit = ({ word, bit }: Cell, value: number): void => {
    const mask = 1 << bit
    stored[word] = value === 1 ? (stored[word] ?? 0) | mask : (stored[word] ?? 0) & ~mask
  }
  const settle = (word: number): void => {
    for (const fault of own.get(word) ?? []) if (fault.kind === 'stuck') setBit(fault, fault.value)
    for (const { word: aggressor, bit, while: held, value, victim } of states)
      if (bitOf({ word: aggressor, bit }) === held) setBit(victim, value)
  }
  const writeCell = (word: number, value: number): void => {
    const before = stored[word] ?? 0
    stored[word] = value
    const faultsHere = own.get(word) ?? []
    for (const fault of faultsHere) {
      if (fault.kind !== 'transition') continue
      if (((before >>> fault.bit) & 1) !== fault.value && bitOf(fault) === fault.value) setBit(fault, 1 - fault.value)
    }
    settle(word)
    for (const fault of faultsHere) {
      if (fault.kind !== 'inversion' && fault.kind !== 'idempotent') continue
      const from = (before >>> fault.bit) & 1
      const to = bitOf(fault)
      if (from === to || (to === 1) !== (fault.on === 'rise')) continue
      setBit(fault.victim, fault.kind === 'inversion' ? 1 - bitOf(fault.victim) : fault.value)
      settle(fault.victim.word)
    }
  }
  for (let word = 0; word < words; word++) settle(word)
  return {
    words,
    write: (word, value) => {
      for (const target of opened.get(word) ?? [word]) writeCell(target, value)
    },
    read: (word) => {
      let value = 0
      for (const target of opened.get(word) ?? [word]) value |= stored[target] ?? 0
      return value >>> 0
    },
  }
}
