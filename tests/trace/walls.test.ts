/** A tall part seen from aside: what its walls add to how well its outline lies, and where its foot is. */
import { describe, expect, test } from 'vitest'
import { distance, type Point, seededRandom } from '../../src/base/index.ts'
import { seatedAt, snap, type Snapped } from '../../src/trace/index.ts'
import { drawnRaster, type DrawnBody } from '../support/drawn-raster.ts'

const camera = { over: { x: 70, y: 55 }, heightMm: 200 }
const body = { widthMm: 9, lengthMm: 9, heightMm: 8 }
const at: Point = { x: 20, y: 15 }
/** From 200 mm what is 8 mm up is seen by 200/192 as far from the point below the camera, and as large. */
const share = 200 / 192
const top: Point = { x: 70 + (20 - 70) * share, y: 55 + (15 - 55) * share }

interface Greys {
  readonly ground: number
  readonly wall: number
  readonly top: number
}

/** Walls as they are seen: the body at each height, the higher over the lower. */
function drawn({ ground, wall, top: onTop }: Greys, noiseGrey = 2) {
  const slices = Array.from({ length: 9 }, (_, i): DrawnBody => {
    const seen = 1 / (1 - i / 200)
    return { at: { x: 70 - 50 * seen, y: 55 - 40 * seen }, widthMm: 9 * seen, lengthMm: 9 * seen, colour: wall }
  })
  const lid: DrawnBody = { at: top, widthMm: 9 * share, lengthMm: 9 * share, colour: onTop }
  return drawnRaster({
    widthMm: 40,
    heightMm: 30,
    pxPerMm: 6,
    ground,
    bodies: [...slices, lid],
    noise: { random: seededRandom(3), grey: noiseGrey },
  })
}

function found(greys: Greys, noiseGrey?: number): Snapped {
  const answer = snap(drawn(greys, noiseGrey), { body, click: { x: top.x + 1, y: top.y - 1 }, camera })
  if (!answer.ok) throw new Error(JSON.stringify(answer.faults))
  return answer.value
}

describe('a tall part', () => {
  // what tells the top from the wall, and the wall from the board
  const both = { ground: 70, wall: 90, top: 110 }
  const topAlone = { ground: 70, wall: 70, top: 110 }
  const footAlone = { ground: 70, wall: 110, top: 110 }

  test.each([
    ['both its edges are seen', both],
    ['its wall looks like the board', topAlone],
    ['its wall looks like its top', footAlone],
    ['it is dark', { ground: 160, wall: 90, top: 40 }],
  ])('is put where it stands where %s', (_, greys) => {
    const snapped = found(greys)
    expect(distance(snapped.topAt, top)).toBeLessThan(0.1)
    expect(distance(snapped.at, at)).toBeLessThan(0.12)
    expect(Math.abs(snapped.rotationDeg)).toBeLessThan(0.7)
  })

  // faint edges, so that one of them alone does not already count in full
  const faint = { ground: 70, wall: 75, top: 80 }

  test('lies better where the edges of top and foot are both seen than where one is', () => {
    const { score } = found(faint, 0.5)
    expect(score).toBeGreaterThan(found({ ...faint, wall: 70, top: 75 }, 0.5).score + 0.02)
    expect(score).toBeGreaterThan(found({ ...faint, top: 75 }, 0.5).score + 0.02)
  })

  test('lies worse where the foot is looked for on the other side', () => {
    const aside = { ...camera, over: { x: 2 * top.x - camera.over.x, y: 2 * top.y - camera.over.y } }
    const other = snap(drawn(faint, 0.5), { body, click: top, camera: aside })
    expect(found(faint, 0.5).score).toBeGreaterThan((other.ok ? other.value.score : 0) + 0.02)
  })

  test.each([180, 190, 215])('leans by its own walls where the camera, at 200 mm, is taken to be at %i', (takenMm) => {
    const taken = { ...camera, heightMm: takenMm }
    const snapped = snap(drawn({ ground: 40, wall: 100, top: 180 }), { body, click: top, camera: taken })
    const byCamera = seatedAt(taken, top, body.heightMm)
    expect(distance(byCamera, at)).toBeGreaterThan(0.13)
    expect(snapped.ok ? distance(snapped.value.at, at) : 9).toBeLessThan(0.09)
  })
})
