/** Photos matched to the board: what is sampled is what was there, on either side, and what gives no view is refused. */
import { describe, expect, test } from 'vitest'
import { applied, type Box, distance, type Picture, resample, sayFault } from '../../src/base/index.ts'
import { cornersSeen, type MatchedCorners, type PhotoSampling, samplingOf, viewOf } from '../../src/case/index.ts'

const board: Box = { minX: 10, minY: 5, maxX: 130, maxY: 85 }
const seen = (side: 'top' | 'bottom') => ({ side, widthPx: 800, heightPx: 600 })
/** Where the four corners are in the photo, in the order of `cornersSeen`: lower left first, y down. */
const inPhoto = [
  { x: 90, y: 540 },
  { x: 700, y: 500 },
  { x: 640, y: 80 },
  { x: 150, y: 60 },
]
const matched = (side: 'top' | 'bottom'): MatchedCorners =>
  cornersSeen(side, board).map((at, i) => ({ at, px: inPhoto[i] ?? at }))

function sampled(side: 'top' | 'bottom', mostPx = 1e6): PhotoSampling {
  const made = samplingOf(seen(side), matched(side), board, mostPx)
  if (!made.ok) throw new Error(made.faults.map(sayFault).join())
  return made.value
}

describe('sampling', () => {
  test.each(['top', 'bottom'] as const)(
    'finds each matched corner of the %s side where it was set in the photo',
    (side) => {
      const { box, width, height, sourceWidth, toSource } = sampled(side)
      for (const { at, px } of matched(side)) {
        const pixel = {
          x: ((at.x - box.minX) / (box.maxX - box.minX)) * width,
          y: ((box.maxY - at.y) / (box.maxY - box.minY)) * height,
        }
        const there = applied(toSource, pixel)
        const scale = 800 / sourceWidth
        expect(distance({ x: there.x * scale, y: there.y * scale }, px)).toBeLessThan(0.6)
      }
    },
  )

  test('shows the bottom side as seen through the board from the top: its left is the photo’s right', () => {
    const photo: Picture = { width: 800, height: 600, rgba: new Uint8ClampedArray(800 * 600 * 4) }
    for (let row = 0; row < 600; row++) {
      for (let column = 0; column < 800; column++)
        photo.rgba.set([column < 400 ? 250 : 5, 0, 0, 255], (row * 800 + column) * 4)
    }
    const plan = sampled('bottom', 9e5)
    expect([plan.sourceWidth, plan.sourceHeight]).toEqual([800, 600])
    const into = { width: plan.width, height: plan.height, rgba: new Uint8ClampedArray(plan.width * plan.height * 4) }
    resample(photo, into, plan.toSource)
    const redAt = (share: number): number =>
      into.rgba[(Math.floor(plan.height / 2) * plan.width + Math.floor(plan.width * share)) * 4] ?? -1
    expect(redAt(0.1)).toBe(5)
    expect(redAt(0.9)).toBe(250)
  })

  test('is no larger than asked for and no finer than the photo', () => {
    const small = sampled('top', 20_000)
    expect(small.width * small.height).toBeLessThanOrEqual(20_000)
    expect(small.sourceWidth).toBeLessThan(800)
    const large = sampled('top', 8e6)
    expect(large.width * large.height).toBeLessThan(800 * 600)
    expect([large.sourceWidth, large.sourceHeight]).toEqual([800, 600])
  })

  test('of a close view covers only what it shows', () => {
    const close: MatchedCorners = [
      { at: { x: 40, y: 30 }, px: { x: 100, y: 500 } },
      { at: { x: 70, y: 30 }, px: { x: 700, y: 500 } },
      { at: { x: 70, y: 50 }, px: { x: 700, y: 100 } },
      { at: { x: 40, y: 50 }, px: { x: 100, y: 100 } },
    ]
    const made = samplingOf(seen('top'), close, board, 8e6)
    if (!made.ok) throw new Error('refused')
    const { box } = made.value
    expect([box.minX, box.minY, box.maxX, box.maxY].map((mm) => Math.round(mm))).toEqual([35, 25, 75, 55])
  })
})

describe('refused, with what to do', () => {
  const said = (side: 'top' | 'bottom', corners: MatchedCorners): string => {
    const view = viewOf(side, corners)
    return view.ok ? 'taken' : view.faults.map(sayFault).join(' ')
  }

  test('the corners of one side on a photo of the other', () => {
    expect(said('top', matched('bottom'))).toMatch(/the other way round.*the other side/)
    expect(said('bottom', matched('top'))).toMatch(/the other way round/)
    expect(said('bottom', matched('bottom'))).toBe('taken')
  })

  test('three corners on one line, said for the photo or for the board', () => {
    const flatPhoto = matched('top').map(({ at }, i) => ({ at, px: { x: 100 * i, y: 50 } }))
    expect(said('top', flatPhoto)).toMatch(/on the photo: found three corners on one line/)
    const flatBoard = matched('top').map(({ px }, i) => ({ px, at: { x: 10 * i, y: 5 } }))
    expect(said('top', flatBoard)).toMatch(/on the board: found three corners on one line/)
  })
})
