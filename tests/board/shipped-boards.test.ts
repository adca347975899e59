/** The boards that ship: made by the generator, without a fault, with the packages and bus that they are named for. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { boardRemarks, readBoard } from '../../src/board/index.ts'
import { generatedBoards } from '../support/generate-boards.ts'
import { SHIPPED, shippedBoard } from '../support/read-board.ts'

const files = generatedBoards()
const boardFiles = [...files.keys()].filter((path) => !path.endsWith('schema.json'))

describe('the files in boards/ are what the generator makes', () => {
  test.each([...files])('%s', (path, text) => {
    expect(readFileSync(path, 'utf8') === text, `${path} differs: run npm run generate`).toBe(true)
  })
})

// Package, channel and lane counts: bus width = packages x 32 bit, half of that back to back; GDDR6 has two channels of
// 16 bits a package, GDDR5 and 5X one of 32 (JEDEC JESD250D, 2023; JESD212; JESD232A, 2016; from memory). A stack
// has 1024 bits in eight channels (JEDEC JESD235B, 2018, by its publisher's announcement).
test.each([
  ['bowline-8', 8, 256, 16],
  ['hitch-12', 12, 384, 24],
  ['splice-6', 6, 192, 6],
  ['cleat-10', 10, 320, 10],
  ['sheet-bend-16', 16, 256, 16],
  ['becket-2', 2, 2048, 16],
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

test.each(SHIPPED)('%s has no two bodies in one place', (name) => {
  const { parts } = shippedBoard(name)
  const meeting = parts.flatMap((a, i) =>
    parts
      .slice(i + 1)
      .filter((b) => a.side === b.side && a.box.minX < b.box.maxX && b.box.minX < a.box.maxX)
      .filter((b) => a.box.minY < b.box.maxY && b.box.minY < a.box.maxY)
      .map((b) => `${a.ref} and ${b.ref}`),
  )
  expect(meeting).toEqual([])
})

test.each(SHIPPED)('%s is a full-length card with its memory 8 to 14 mm from the core', (name) => {
  const { box, core, memories } = shippedBoard(name)
  if (!core) throw new Error('no core')
  expect(box.maxX - box.minX).toBeGreaterThanOrEqual(267)
  expect(box.maxY - box.minY).toBeGreaterThanOrEqual(111)
  for (const { box: body } of memories) {
    const dx = Math.max(0, body.minX - core.box.maxX, core.box.minX - body.maxX)
    const dy = Math.max(0, body.minY - core.box.maxY, core.box.minY - body.maxY)
    expect(Math.hypot(dx, dy)).toBeGreaterThanOrEqual(8)
    expect(Math.hypot(dx, dy)).toBeLessThanOrEqual(14)
  }
})

test.each(SHIPPED)('%s has rails with ranges that say where they are from, and every package fed', (name) => {
  const { rails, memories } = shippedBoard(name)
  for (const rail of rails) expect(rail.ohmsToGround?.from).toBe('common practice, no source')
  const memoryRail = rails.find((rail) => rail.name === 'VMEM')
  const branched = memoryRail?.branches.flatMap((branch) => branch.feeds).toSorted()
  expect(branched).toEqual(memories.map(({ ref }) => ref).toSorted())
})
