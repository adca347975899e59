/**
 * The published JSON Schema of boards, held by a validator that is not ours (JSON Schema, draft 2020-12): it takes every shipped
 * board, and what it refuses the reader refuses too.
 */
import { readdirSync, readFileSync } from 'node:fs'
import Ajv2020 from 'ajv/dist/2020.js'
import { expect, test } from 'vitest'
import { z } from 'zod'
import { seededRandom } from '../../src/base/index.ts'
import { loadBoard } from '../../src/board/index.ts'

const plain = z.record(z.string(), z.unknown())
const read = (name: string): Record<string, unknown> => plain.parse(JSON.parse(readFileSync(`boards/${name}`, 'utf8')))
const shipped = readdirSync('boards').filter((name) => name.endsWith('.json') && name !== 'schema.json')
const validate = new Ajv2020({ strict: false, allErrors: false }).compile(read('schema.json'))

test.each(shipped)('%s is what the published schema describes', (name) => {
  validate(read(name))
  expect(validate.errors ?? []).toEqual([])
})

const WRONG: readonly unknown[] = [null, 'no number', -1e9, [], {}, true, '']

/** One place anywhere in the value changed, removed, or given a field that nobody knows. */
function spoilt(value: unknown, next: () => number): unknown {
  const copy: unknown = structuredClone(value)
  let at: unknown = copy
  for (;;) {
    const keys = at !== null && typeof at === 'object' ? Object.keys(at) : []
    const key = keys[Math.floor(next() * keys.length)]
    if (key === undefined || at === null || typeof at !== 'object') return copy
    const child: unknown = Reflect.get(at, key)
    const isLeaf = child === null || typeof child !== 'object'
    if (isLeaf || next() < 0.15) {
      const way = next()
      if (way < 0.4) Reflect.set(at, key, WRONG[Math.floor(next() * WRONG.length)])
      else if (way < 0.7) Reflect.deleteProperty(at, key)
      else Reflect.set(at, 'nobody knows this', 1)
      return copy
    }
    at = child
  }
}

test('of 600 boards with one place spoilt, all that the published schema refuses the reader refuses', () => {
  const random = seededRandom(11)
  let refused = 0
  for (let draw = 0; draw < 600; draw++) {
    const board = spoilt(read(shipped[draw % shipped.length] ?? ''), () => random.next())
    if (validate(board)) continue
    refused++
    expect(loadBoard(board).ok).toBe(false)
  }
  expect(refused).toBeGreaterThan(200)
})
