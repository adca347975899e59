/** The camera: what is held under the pointer stays there, and the bottom side is the board turned over. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { createCameraStore } from '../../src/view/sheet/cameraStore.ts'
import {
  type Camera,
  MAX_SCALE,
  MIN_SCALE,
  paneAt,
  panesOf,
  paneTransform,
  pannedBy,
  showingBox,
  shownBox,
  toBoard,
  toPane,
  zoomedAt,
} from '../../src/view/sheet/pure/camera.ts'

fc.configureGlobal({ seed: 20 })

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const cameras = fc.record<Camera>({
  centre: fc.record({ x: number(-300, 300), y: number(-300, 300) }),
  scale: number(MIN_SCALE, MAX_SCALE),
  side: fc.constantFrom('top', 'bottom', 'both'),
  width: fc.integer({ min: 200, max: 2000 }),
  height: fc.integer({ min: 200, max: 2000 }),
})
const spots = fc.record({ x: number(0, 1), y: number(0, 1) })

const boardUnder = (camera: Camera, onSheet: { x: number; y: number }) => {
  const pane = paneAt(camera, onSheet)
  return toBoard(paneTransform(camera, pane), { x: onSheet.x - pane.left, y: onSheet.y - pane.top })
}

describe('camera', () => {
  it('brings a board point to the screen and back', () => {
    fc.assert(
      fc.property(cameras, fc.record({ x: number(-300, 300), y: number(-300, 300) }), (camera, point) => {
        for (const pane of panesOf(camera)) {
          const t = paneTransform(camera, pane)
          const back = toBoard(t, toPane(t, point))
          expect(back.x).toBeCloseTo(point.x, 6)
          expect(back.y).toBeCloseTo(point.y, 6)
        }
      }),
    )
  })

  it('keeps the board point under the pointer while zooming, on either side', () => {
    fc.assert(
      fc.property(cameras, spots, number(0.2, 5), (camera, spot, factor) => {
        const onSheet = { x: spot.x * (camera.width - 1), y: spot.y * (camera.height - 1) }
        const before = boardUnder(camera, onSheet)
        const after = boardUnder(zoomedAt(camera, onSheet, factor), onSheet)
        expect(after.x).toBeCloseTo(before.x, 6)
        expect(after.y).toBeCloseTo(before.y, 6)
      }),
    )
  })

  it('keeps the board point under the hand while panning, on either side', () => {
    fc.assert(
      fc.property(cameras, number(-80, 80), number(-80, 80), (camera, dx, dy) => {
        for (const pane of panesOf(camera)) {
          const from = { x: pane.width / 2, y: pane.height / 2 }
          const held = toBoard(paneTransform(camera, pane), from)
          const moved = toPane(paneTransform(pannedBy(camera, dx, dy, pane.side), pane), held)
          expect(moved.x).toBeCloseTo(from.x + dx, 6)
          expect(moved.y).toBeCloseTo(from.y + dy, 6)
        }
      }),
    )
  })

  it('never zooms beyond its bounds', () => {
    fc.assert(
      fc.property(cameras, number(1e-4, 1e4), (camera, factor) => {
        const { scale } = zoomedAt(camera, { x: 10, y: 10 }, factor)
        expect(scale).toBeGreaterThanOrEqual(MIN_SCALE)
        expect(scale).toBeLessThanOrEqual(MAX_SCALE)
      }),
    )
  })

  it('shows the bottom mirrored left to right, not upside down', () => {
    const camera: Camera = { centre: { x: 50, y: 20 }, scale: 4, side: 'bottom', width: 400, height: 200 }
    const pane = panesOf(camera)[0]
    if (pane === undefined) throw new Error('no pane')
    expect(toPane(paneTransform(camera, pane), { x: 60, y: 30 })).toEqual({ x: 160, y: 60 })
  })

  it('puts both sides beside each other where the sheet is wide, above each other where it is tall', () => {
    const camera: Camera = { centre: { x: 0, y: 0 }, scale: 1, side: 'both', width: 801, height: 300 }
    expect(panesOf(camera).map(({ side, left, width }) => [side, left, width])).toEqual([
      ['top', 0, 400],
      ['bottom', 400, 401],
    ])
    expect(panesOf({ ...camera, height: 901 }).map(({ side, top, height }) => [side, top, height])).toEqual([
      ['top', 0, 450],
      ['bottom', 450, 451],
    ])
  })

  it('fits a box whole, with its margin, and as large as that allows', () => {
    fc.assert(
      fc.property(number(5, 200), number(5, 200), (boxWidth, boxHeight) => {
        const camera: Camera = { centre: { x: 0, y: 0 }, scale: 1, side: 'top', width: 900, height: 700 }
        const box = { minX: 10, minY: 20, maxX: 10 + boxWidth, maxY: 20 + boxHeight }
        const fitted = showingBox(camera, box, 30)
        const fill = Math.max((boxWidth * fitted.scale) / 840, (boxHeight * fitted.scale) / 640)
        expect(fill).toBeLessThanOrEqual(1 + 1e-9)
        expect(fill > 1 - 1e-9 || fitted.scale === MAX_SCALE).toBe(true)
      }),
    )
  })
})

describe('camera store', () => {
  const board = { minX: 0, minY: 0, maxX: 267, maxY: 111 }

  it('opens on the whole board as soon as the sheet has a size', () => {
    const store = createCameraStore(board)
    store.getState().resize(1000, 600)
    const pane = panesOf(store.getState())[0]
    if (pane === undefined) throw new Error('no pane')
    const shown = shownBox(store.getState(), pane)
    expect(shown.minX).toBeLessThan(0)
    expect(shown.maxX).toBeGreaterThan(267)
    expect(store.getState().scale).toBeCloseTo((1000 - 72) / 267, 6)
  })

  it('opens on what it is told to, and a later resize keeps the view', () => {
    const store = createCameraStore(board, { minX: 90, minY: 40, maxX: 150, maxY: 80 })
    store.getState().resize(800, 800)
    expect(store.getState().centre).toEqual({ x: 120, y: 60 })
    const { scale } = store.getState()
    store.getState().resize(900, 700)
    expect(store.getState().scale).toBe(scale)
  })

  it('can never lose the board', () => {
    const store = createCameraStore(board)
    store.getState().resize(800, 600)
    store.getState().panBy(1e6, -1e6)
    const { x, y } = store.getState().centre
    expect(x).toBeGreaterThanOrEqual(board.minX)
    expect(y).toBeGreaterThanOrEqual(board.minY)
    expect(x).toBeLessThanOrEqual(board.maxX)
    expect(y).toBeLessThanOrEqual(board.maxY)
  })

  it('turns over and back, keeping the same board point in the middle', () => {
    const store = createCameraStore(board)
    const { centre } = store.getState()
    store.getState().turnOver()
    expect(store.getState().side).toBe('bottom')
    expect(store.getState().centre).toEqual(centre)
    store.getState().turnOver()
    expect(store.getState().side).toBe('top')
  })
})
