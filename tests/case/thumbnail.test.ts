import { describe, expect, test } from 'vitest'
import { boardFromPattern, usualPattern } from '../../src/board/index.ts'
import { type Thumbnail, thumbnailOf } from '../../src/case/index.ts'
import { SHIPPED, shippedBoard } from '../support/read-board.ts'

const count = ({ parts }: Thumbnail, kind: string): number => parts.filter((part) => part.kind === kind).length

const numbersIn = (path: string): number[] => (path.match(/-?\d+(\.\d+)?/g) ?? []).map(Number)

describe.each(SHIPPED)('the small picture of %s', (name) => {
  const model = shippedBoard(name)
  const picture = thumbnailOf(model)

  test('shows the core last, each memory package, and those of the bottom as behind', () => {
    expect(count(picture, 'core')).toBe(1)
    expect(picture.parts.at(-1)?.kind).toBe('core')
    expect(count(picture, 'memory')).toBe(model.memories.filter(({ side }) => side === 'top').length)
    expect(count(picture, 'behind')).toBe(model.memories.filter(({ side }) => side === 'bottom').length)
  })

  test('is drawn in mm with the slot down, all of it on the paper', () => {
    const marginsMm = picture.widthMm - (model.box.maxX - model.box.minX)
    expect(marginsMm).toBeGreaterThan(0)
    expect(picture.heightMm - (model.box.maxY - model.box.minY)).toBeCloseTo(marginsMm)
    for (const path of [picture.edge, picture.lanes, ...picture.parts.map((part) => part.path)]) {
      const numbers = numbersIn(path)
      expect(numbers.every((mm) => mm >= 0)).toBe(true)
      expect(Math.max(...numbers.filter((_, i) => i % 2 === 0))).toBeLessThanOrEqual(picture.widthMm)
      expect(Math.max(...numbers.filter((_, i) => i % 2 === 1))).toBeLessThanOrEqual(picture.heightMm)
    }
    const tab = model.outline.filter(({ y }) => y === model.box.minY)
    const lowest = Math.max(...numbersIn(picture.edge).filter((_, i) => i % 2 === 1))
    expect(tab.length).toBeGreaterThan(0)
    expect(lowest).toBeCloseTo(picture.heightMm - marginsMm / 2)
  })
})

test('capacitors as small as dust are left out, stages are not', () => {
  const board = boardFromPattern(usualPattern())
  if (!board.ok) throw new Error('no board')
  const shown = thumbnailOf(board.value)
  const stages = board.value.parts.filter(({ kind }) => kind === 'power-stage').length
  expect(count(shown, 'other')).toBeGreaterThanOrEqual(2 * stages)
  const hitch = shippedBoard('hitch-12')
  expect(thumbnailOf(hitch).parts.length).toBeLessThan(hitch.parts.length / 4)
})
