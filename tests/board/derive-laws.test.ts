/** What is derived of any generated board keeps the laws of regions, corridors and lanes. */
import { fc, test as property } from '@fast-check/vitest'
import { describe, expect } from 'vitest'
import { placePoint, type Point, polygonContains } from '../../src/base/index.ts'
import { type BoardModel, boardSchema, deriveModel } from '../../src/board/index.ts'
import { unsoundIn } from '../support/sound-model.ts'

const SEED = { seed: 20251125, numRuns: 30 }

interface Standing {
  readonly bearingDeg: number
  readonly awayMm: number
  readonly rotationDeg: number
  readonly side: 'top' | 'bottom'
}

const standing: fc.Arbitrary<Standing> = fc.record({
  bearingDeg: fc.double({ min: 0, max: 360, noNaN: true }),
  awayMm: fc.double({ min: 32, max: 60, noNaN: true }),
  rotationDeg: fc.constantFrom(0, 45, 90, 180, 270),
  side: fc.constantFrom('top', 'bottom'),
})

/** A core in the middle with memories about it, and all of that moved and turned. */
function boardAbout(memories: readonly Standing[], at: Point, turnDeg: number): BoardModel {
  const frame = { at, rotationDeg: turnDeg, mirrored: false }
  const parts = memories.map(({ bearingDeg, awayMm, rotationDeg, side }, i) => {
    const bearing = (bearingDeg * Math.PI) / 180
    const place = { x: awayMm * Math.cos(bearing), y: awayMm * Math.sin(bearing) }
    const turned = (rotationDeg + turnDeg) % 360
    return {
      ref: `M${i}`,
      kind: 'memory',
      side,
      at: placePoint(place, frame),
      rotationDeg: turned,
      package: '180-ball',
    }
  })
  const lanes = ['A0', 'A1', 'B0', 'B1'].map((name) => ({ name }))
  return deriveModel(
    boardSchema.parse({
      format: 'liftmap-board',
      version: 1,
      name: 'about',
      outline: [
        { x: -200, y: -200 },
        { x: 200, y: -200 },
        { x: 200, y: 200 },
        { x: -200, y: 200 },
      ],
      parts: [{ ref: 'C', kind: 'core', side: 'top', at, rotationDeg: turnDeg, package: 'core-29' }, ...parts],
      memory: { channels: parts.map(({ ref }) => ({ id: ref, part: ref, lanes })) },
    }),
  )
}

const ring = fc.array(standing, { minLength: 1, maxLength: 14 })

/** No two memories of one bearing, and none so that two gaps between them are equal: there a turn may break a tie. */
const unevenRing = ring.map((memories) =>
  memories.map((memory, i) => ({
    ...memory,
    bearingDeg: 3 + 23.7 * i + 11 * Math.abs(Math.sin(memory.bearingDeg + i)),
  })),
)

describe('core regions of any ring of memories', () => {
  property.prop([ring], SEED)('make a sound model whose core patches never overlap', (memories) => {
    const model = boardAbout(memories, { x: 0, y: 0 }, 0)
    expect(unsoundIn(model)).toEqual([])
    const onCore = model.regions.filter((region) => region.part === 'C')
    for (let y = -14.3; y < 14.5; y += 1.13)
      for (let x = -14.3; x < 14.5; x += 1.13) {
        const over = onCore.filter(({ polygon }) => polygonContains(polygon, { x, y }))
        expect(over.slice(1).map(({ id }) => id)).toEqual([])
      }
    for (const { polygon } of onCore)
      for (const { x, y } of polygon) expect(Math.max(Math.abs(x), Math.abs(y))).toBeLessThanOrEqual(14.5)
  })

  const move = fc.record({ x: fc.integer({ min: -80, max: 80 }), y: fc.integer({ min: -80, max: 80 }) })

  property.prop([unevenRing, move, fc.constantFrom(0, 90, 180, 270)], SEED)(
    'move and turn with the board',
    (memories, at, turnDeg) => {
      const still = boardAbout(memories, { x: 0, y: 0 }, 0)
      const moved = boardAbout(memories, at, turnDeg)
      for (const region of still.regions) {
        const expected = placePoint(region.centre, { at, rotationDeg: turnDeg, mirrored: false })
        const found = moved.regionById.get(region.id)
        expect(found?.areaMm2).toBeCloseTo(region.areaMm2, 6)
        expect(found?.centre.x).toBeCloseTo(expected.x, 6)
        expect(found?.centre.y).toBeCloseTo(expected.y, 6)
      }
    },
  )
})
