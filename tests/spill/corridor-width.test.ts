/** A strip of tracks is reached at its near edge, not at its middle line. */
import { expect, test } from 'vitest'
import { createReachEngine } from '../../src/spill/index.ts'
import { spillAt, spillBoard, substanceOf, unwrap } from '../support/board-fixture.ts'

const plain = spillBoard(60, 40)

/** How likely a spill about (30, 9) comes to a strip along y. */
function chanceAt(y: number, widthMm: number): number {
  const path = [
    { x: 20, y },
    { x: 40, y },
  ]
  const model = {
    ...plain,
    corridors: [{ lane: 'U1.A0', side: 'top' as const, path, widthMm, from: 'drawn' as const }],
  }
  const mark = spillAt(30, 9, { sdMm: 2, amount: { volumeMl: 0.3 } })
  const [corridor] = unwrap(createReachEngine(model).reach(mark, [], substanceOf('water'))).corridors
  return corridor?.probability ?? Number.NaN
}

test('a wide strip is as likely as a narrow one along its near edge, and likelier than one along its middle', () => {
  for (const [middle, widthMm] of [
    [22, 12],
    [20, 6],
  ] as const) {
    const wide = chanceAt(middle, widthMm)
    // its outermost row of cells lies within a cell of 1 mm of the edge
    expect(wide).toBeLessThanOrEqual(chanceAt(middle - widthMm / 2 - 0.5, 0.2) + 1e-9)
    expect(wide).toBeGreaterThanOrEqual(chanceAt(middle - widthMm / 2 + 1, 0.2) - 1e-9)
    expect(wide).toBeGreaterThan(chanceAt(middle, 0.2) + 0.1)
  }
})
