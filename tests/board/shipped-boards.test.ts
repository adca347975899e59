import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { boardRemarks, readBoard } from '../../src/board/index.ts'
import { generatedBoards } from '../support/generate-boards.ts'

const files = generatedBoards()
const boardFiles = [...files.keys()].filter((path) => !path.endsWith('schema.json'))

describe('the files in boards/ are what the generator makes', () => {
  test.each([...files])('%s', (path, text) => {
    expect(readFileSync(path, 'utf8') === text, `${path} differs: run npm run generate`).toBe(true)
  })
})

// Package, channel and lane counts: bus width = packages x 32 bit, half of that back to back; GDDR6 has two channels of
// 16 bits a package, GDDR5 and 5X one of 32 (memory makers' GDDR5 and GDDR6 briefs).
test.each([
  ['bowline-8', 8, 256, 16],
  ['hitch-12', 12, 384, 24],
  ['splice-6', 6, 192, 6],
  ['cleat-10', 10, 320, 10],
  ['sheet-bend-16', 16, 256, 16],
])('%s has %i packages, a bus of %i bits, %i channels', (name, packages, bits, channels) => {
  const board = readBoard(readFileSync(`boards/${name}.json`, 'utf8'))
  if (!board.ok) throw new Error(JSON.stringify(board.faults, null, 1))
  expect(board.value.memories.length).toBe(packages)
  expect(board.value.lanes.reduce((sum, lane) => sum + lane.bitCount, 0)).toBe(bits)
  expect(board.value.channels.length).toBe(channels)
})

test.each(boardFiles)('%s names its schema and has nothing odd', (path) => {
  const text = readFileSync(path, 'utf8')
  expect(JSON.parse(text)).toMatchObject({ $schema: './schema.json' })
  const board = readBoard(text)
  if (!board.ok) throw new Error(JSON.stringify(board.faults, null, 1))
  expect(boardRemarks(board.value)).toEqual([])
})
