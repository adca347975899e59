/**
 * March tests as published, over any memory of words: van de Goor, Testing Semiconductor Memories: Theory and Practice,
 * Wiley 1991, and van de Goor, Using march tests to test SRAMs, IEEE Design & Test of Computers 10(1), 1993.
 */

/** A memory of words; a write and a read are all that a test sees of it. */
export interface TestedMemory {
  readonly words: number
  readonly write: (word: number, value: number) => void
  readonly read: (word: number) => number
}

type Operation = 'r0' | 'r1' | 'w0' | 'w1'

export interface MarchTest {
  readonly name: string
  readonly elements: readonly { readonly order: 'up' | 'down'; readonly operations: readonly Operation[] }[]
}

/** {any(w0); up(r0,w1); up(r1,w0); down(r0,w1); down(r1,w0); any(r0)}, 10 n. */
export const marchCMinus: MarchTest = {
  name: 'March C-',
  elements: [
    { order: 'up', operations: ['w0'] },
    { order: 'up', operations: ['r0', 'w1'] },
    { order: 'up', operations: ['r1', 'w0'] },
    { order: 'down', operations: ['r0', 'w1'] },
    { order: 'down', operations: ['r1', 'w0'] },
    { order: 'up', operations: ['r0'] },
  ],
}

/** {any(w0); up(r0,w1); down(r1,w0)}, 5 n. */
export const matsPlus: MarchTest = {
  name: 'MATS+',
  elements: [
    { order: 'up', operations: ['w0'] },
    { order: 'up', operations: ['r0', 'w1'] },
    { order: 'down', operations: ['r1', 'w0'] },
  ],
}

const ONES = 0xffffffff

/** Walks a test; `onBad` hears each read that came back wrong, in the order of the walk: element from 1, word, words. */
export function runMarch(
  test: MarchTest,
  memory: TestedMemory,
  onBad: (element: number, word: number, expected: number, actual: number) => void,
): void {
  const last = memory.words - 1
  let number = 0
  for (const { order, operations } of test.elements) {
    number++
    for (let step = 0; step <= last; step++) {
      const word = order === 'up' ? step : last - step
      for (const operation of operations) {
        const value = operation === 'r1' || operation === 'w1' ? ONES : 0
        if (operation === 'w0' || operation === 'w1') {
          memory.write(word, value)
          continue
        }
        const actual = memory.read(word)
        if (actual !== value) onBad(number, word, value, actual)
      }
    }
  }
}
