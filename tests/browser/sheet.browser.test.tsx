/** The sheet in a real browser: what is drawn where, and what the hand and the keys do. */
import axe from 'axe-core'
import { Profiler } from 'react'
import { beforeEach, describe, expect, test, vi } from 'vitest'
import { page } from 'vitest/browser'
import { render } from 'vitest-browser-react'
import bowline from '../../boards/bowline-8.json'
import type { Point } from '../../src/base/index.ts'
import { installTokens, themes } from '../../src/view/look/index.ts'
import { createCameraStore, Sheet, type SheetProps } from '../../src/view/sheet/index.ts'
import { bareReach, boardFrom, exampleMarks, suspectsAt, tallyOf } from '../support/sheetExample.ts'
import { countNear, drawn, handOn } from '../support/sheetHand.ts'
import { sees } from '../support/waiting.ts'

const model = boardFrom(bowline)
const SPILL: Point = { x: 147, y: 85 }
const OPENING = { minX: 62, minY: 12, maxX: 184, maxY: 108 }

const everything = { errorLoad: true, reach: true, field: true, liftOrder: true, labels: true }

function propsWith(over: Partial<SheetProps> = {}): SheetProps {
  return {
    model,
    camera: createCameraStore(model.box, OPENING),
    theme: 'paper',
    overlays: everything,
    tallyParts: [],
    reach: undefined,
    suspects: undefined,
    marks: [],
    selection: undefined,
    hovered: undefined,
    tool: 'select',
    onSelect: vi.fn(),
    onHover: vi.fn(),
    onMarkAdd: vi.fn(),
    onMarkEdit: vi.fn(),
    onMarkRemove: vi.fn(),
    ...over,
  }
}

async function show(over: Partial<SheetProps> = {}) {
  const props = propsWith(over)
  const onRender = vi.fn()
  const tree = (now: SheetProps) => (
    <Profiler id="sheet" onRender={onRender}>
      <div style={{ width: 900, height: 720 }}>
        <Sheet {...now} />
      </div>
    </Profiler>
  )
  const view = await render(tree(props))
  await drawn(view.container)
  const hand = handOn(view.container, props.camera)
  return {
    props,
    view,
    hand,
    onRender,
    update: async (now: Partial<SheetProps>) => {
      await view.rerender(tree({ ...props, ...now }))
      await drawn(view.container)
    },
  }
}

beforeEach(async () => {
  await page.viewport(900, 720)
  installTokens(document)
})

const middleOf = (id: string): Point => {
  const region = model.regionById.get(id)
  if (region === undefined) throw new Error(id)
  return region.centre
}
const placeOf = (ref: string): Point => {
  const part = model.partByRef.get(ref)
  if (part === undefined) throw new Error(ref)
  return part.placement.at
}

describe('drawing', () => {
  test.each(['paper', 'chalk'] as const)('writes refs that can be seen, in %s', async (theme) => {
    const { hand, update } = await show({ theme })
    const ink = themes[theme].ink
    const written = countNear(hand.look(placeOf('U14'), 16), ink)
    expect(written).toBeGreaterThan(30)
    await update({ overlays: { ...everything, labels: false } })
    expect(countNear(hand.look(placeOf('U14'), 16), ink)).toBeLessThan(written / 4)
  })

  test('brings its own font, so that 0 and O look different', async () => {
    await show()
    expect(document.fonts.check('700 14px "Atkinson Hyperlegible Next Variable"')).toBe(true)
  })

  test('draws each picture once a frame, however often the camera moved in it, and with the pixels of the screen', async () => {
    const { props, view } = await show()
    const canvases = [...view.container.querySelectorAll<HTMLCanvasElement>('[data-pane] canvas')]
    const cleared = canvases.map((canvas) =>
      vi.spyOn(canvas.getContext('2d') ?? expect.fail('no context'), 'clearRect'),
    )
    for (let step = 0; step < 5; step++) props.camera.getState().panBy(2, 1)
    await drawn(view.container)
    expect(cleared.map((spy) => spy.mock.calls.length)).toEqual([1, 1, 1])
    for (const canvas of canvases) {
      expect(canvas.width).toBe(Math.round(canvas.clientWidth * window.devicePixelRatio))
      expect(canvas.height).toBe(Math.round(canvas.clientHeight * window.devicePixelRatio))
    }
  })

  test('hatches both ends of a failing lane and no other', async () => {
    const { hand } = await show({ tallyParts: [tallyOf(model, 'U13', { A0: 900 })] })
    const coreRegion = model.laneById.get('U13.A0')?.coreRegion
    if (coreRegion === undefined) throw new Error('no core region')
    const { load } = themes.paper
    const hatched = (id: string) => countNear(hand.look(middleOf(id), 6), load, 100)
    expect(hatched('U13/A0')).toBeGreaterThan(12)
    expect(hatched(coreRegion)).toBeGreaterThan(12)
    expect(hatched('U14/A0')).toBe(0)
    expect(hatched('U11/A0')).toBe(0)
  })

  test('rings the reach at its radius in solid blue, and goes when it is switched off', async () => {
    const { hand, update } = await show({ reach: bareReach(model, SPILL, 10) })
    const edge = { x: SPILL.x, y: SPILL.y + 10 }
    const { reach } = themes.paper
    expect(countNear(hand.look(edge, 5), reach)).toBeGreaterThan(8)
    await update({ reach: bareReach(model, SPILL, 10), overlays: { ...everything, reach: false } })
    expect(countNear(hand.look(edge, 5), reach)).toBe(0)
  })

  test('washes the place where the spill probably was, and numbers the parts to lift', async () => {
    const { hand, update } = await show()
    const plain = hand.look({ x: 147, y: 82 }, 3)
    await update({ suspects: suspectsAt(model, SPILL, ['U13', 'U12']) })
    const washed = hand.look({ x: 147, y: 82 }, 3)
    const red = (pixels: readonly (readonly number[])[]) =>
      pixels.reduce((sum, pixel) => sum + (pixel[0] ?? 0), 0) / pixels.length
    expect(red(washed)).toBeLessThan(red(plain) - 25)
    const corner = model.partByRef.get('U13')?.box
    if (corner === undefined) throw new Error('no U13')
    expect(countNear(hand.look({ x: corner.maxX, y: corner.maxY }, 12), themes.paper.ink)).toBeGreaterThan(200)
  })

  test('shows the bottom as the board looks when it is turned over', async () => {
    const camera = createCameraStore(model.box)
    camera.getState().show('bottom')
    const { view } = await show({ camera, marks: bottomSpill() })
    const hand = handOn(view.container, camera, 'bottom')
    expect(hand.element.getAttribute('aria-label')).toContain('bottom side')
    expect(countNear(hand.look(SPILL, 5), themes.paper.reach)).toBeGreaterThan(60)
  })

  test('shows both sides beside each other', async () => {
    const camera = createCameraStore(model.box)
    camera.getState().show('both')
    const { view } = await show({ camera })
    const panes = [...view.container.querySelectorAll<HTMLElement>('[data-pane]')]
    expect(panes.map((pane) => pane.dataset['pane'])).toEqual(['top', 'bottom'])
    expect(panes.map((pane) => pane.clientWidth)).toEqual([450, 450])
  })
})

function bottomSpill(): SheetProps['marks'] {
  return exampleMarks.filter((mark) => mark.kind === 'spill').map((mark) => ({ ...mark, side: 'bottom' as const }))
}

describe('camera', () => {
  test('zooms to the pointer and pans with the hand without rendering React', async () => {
    const { hand, props, onRender } = await show()
    const renders = onRender.mock.calls.length
    const before = props.camera.getState()
    const at = { x: 150, y: 90 }
    const client = { x: (at.x - before.centre.x) * before.scale, y: (at.y - before.centre.y) * before.scale }
    hand.wheel(at, -120)
    const after = props.camera.getState()
    expect(after.scale).toBeGreaterThan(before.scale)
    expect((at.x - after.centre.x) * after.scale).toBeCloseTo(client.x, 6)
    expect((at.y - after.centre.y) * after.scale).toBeCloseTo(client.y, 6)
    hand.press({ x: 100, y: 100 })
    await hand.moveTo({ x: 102, y: 101 })
    await hand.moveTo({ x: 104, y: 102 })
    hand.release({ x: 104, y: 102 })
    expect(props.camera.getState().centre.x).toBeLessThan(after.centre.x)
    expect(props.onSelect).not.toHaveBeenCalled()
    expect(onRender.mock.calls.length).toBe(renders)
  })

  test('pinches with two fingers', async () => {
    const { hand, props } = await show()
    const { scale } = props.camera.getState()
    hand.press({ x: 110, y: 60 }, 1)
    hand.press({ x: 130, y: 60 }, 2)
    await hand.moveTo({ x: 140, y: 60 }, 2)
    hand.release({ x: 140, y: 60 }, 2)
    hand.release({ x: 110, y: 60 }, 1)
    expect(props.camera.getState().scale).toBeCloseTo(scale * 1.5, 1)
  })

  test('takes arrow keys, plus, minus, 0 and T', async () => {
    const { hand, props } = await show()
    const camera = props.camera.getState
    const { centre, scale } = camera()
    hand.key('ArrowRight')
    expect(camera().centre.x).toBeGreaterThan(centre.x)
    hand.key('+')
    expect(camera().scale).toBeCloseTo(scale * 1.25, 6)
    hand.key('-')
    expect(camera().scale).toBeCloseTo(scale, 6)
    hand.key('f')
    expect(camera().scale).toBeLessThan(scale)
    hand.key('t')
    expect(camera().side).toBe('bottom')
  })

  test('moves the view by the window of the small whole board, which goes when the whole board is in view', async () => {
    const { view, props } = await show()
    const overview = view.container.querySelector<HTMLElement>('.sheet-overview')
    if (overview === null) throw new Error('no overview')
    const rect = overview.getBoundingClientRect()
    const at = { clientX: rect.left + 20, clientY: rect.top + rect.height / 2, bubbles: true, pointerId: 7 }
    overview.setPointerCapture = vi.fn()
    overview.dispatchEvent(new PointerEvent('pointerdown', at))
    overview.dispatchEvent(new PointerEvent('pointerup', at))
    expect(props.camera.getState().centre.x).toBeLessThan(30)
    props.camera.getState().fit()
    await sees(() => expect(view.container.querySelector('.sheet-overview')).toBeNull())
  })
})

describe('selecting', () => {
  test('takes the part, then its lane, and nothing beside the board', async () => {
    const { hand, props, update } = await show()
    hand.click(middleOf('U13/A0'))
    expect(props.onSelect).toHaveBeenLastCalledWith({ kind: 'part', id: 'U13' })
    await update({ selection: { kind: 'part', id: 'U13' } })
    hand.click(middleOf('U13/A0'))
    expect(props.onSelect).toHaveBeenLastCalledWith({ kind: 'lane', id: 'U13.A0' })
    hand.click({ x: 60, y: 113 })
    expect(props.onSelect).toHaveBeenLastCalledWith(undefined)
  })

  test('tells what is under the pointer once, not with every move', async () => {
    const { hand, props } = await show()
    await hand.moveTo(placeOf('U14'))
    await hand.moveTo({ x: placeOf('U14').x + 0.5, y: placeOf('U14').y })
    expect(props.onHover).toHaveBeenCalledTimes(1)
    expect(props.onHover).toHaveBeenLastCalledWith({ kind: 'part', id: 'U14' })
  })

  test('lights the pads of a net and the probe points of a rail', async () => {
    const rail = model.rails.find((one) => one.points.some((point) => point.side === 'top'))
    const point = rail?.points.find((one) => one.side === 'top')
    if (rail === undefined || point === undefined) throw new Error('no probe points')
    const camera = createCameraStore(model.box, {
      minX: point.at.x - 6,
      maxX: point.at.x + 6,
      minY: point.at.y - 6,
      maxY: point.at.y + 6,
    })
    const { hand } = await show({ camera, selection: { kind: 'rail', id: rail.name } })
    const above = { x: point.at.x, y: point.at.y + 10 / camera.getState().scale }
    expect(countNear(hand.look(above, 3), themes.paper.lit)).toBeGreaterThan(20)
  })

  test('walks by keyboard from part to part, says where it stands, and selects', async () => {
    const { hand, props, view } = await show()
    hand.element.focus()
    expect(hand.key('Tab')).toBe(false)
    hand.key('Enter')
    const spoken = () => view.container.querySelector('output')?.textContent
    await sees(() => expect(spoken()).toBe('U1, core, top side'))
    hand.key('Tab')
    hand.key('ArrowRight')
    await sees(() => expect(spoken()).toBe('U12, memory, top side'))
    await drawn(view.container)
    const box = model.partByRef.get('U12')?.box
    if (box === undefined) throw new Error('no U12')
    const ring = { x: box.maxX + 6 / props.camera.getState().scale, y: (box.minY + box.maxY) / 2 }
    expect(countNear(hand.look(ring, 3), themes.paper.focus)).toBeGreaterThan(10)
    hand.key('Enter')
    expect(props.onSelect).toHaveBeenLastCalledWith({ kind: 'part', id: 'U12' })
    expect(hand.key('Escape')).toBe(true)
    await sees(() => expect(spoken()).toBe(''))
  })

  test('has no fault that axe knows', async () => {
    const { view } = await show({ marks: exampleMarks })
    const { violations } = await axe.run(view.container)
    expect(violations.map((violation) => violation.id)).toEqual([])
  })
})

/** The last mark that the hand told, by id and place, and how it held it. */
function lastEdit({ onMarkEdit }: SheetProps): unknown[] {
  const [mark, ...how] = vi.mocked(onMarkEdit).mock.lastCall ?? []
  return [{ id: mark?.id, at: mark?.kind === 'dam' ? undefined : mark?.at }, ...how]
}

describe('marks', () => {
  test.each(['mouse', 'touch'] as const)('under the blue point stay when it is dragged by %s', async (pointer) => {
    const spot = { kind: 'residue', id: 'spot', side: 'top', at: SPILL, radiusMm: 9 } as const
    const { props, view } = await show({ marks: [...exampleMarks, spot] })
    const hand = handOn(view.container, props.camera, 'top', pointer)
    const off = { x: SPILL.x + 0.8, y: SPILL.y - 0.5 }
    hand.press(off)
    await hand.moveTo({ x: off.x + 12, y: off.y + 3 })
    hand.release({ x: off.x + 12, y: off.y + 3 })
    const told = vi.mocked(props.onMarkEdit).mock.calls.map(([mark]) => mark.id)
    expect(new Set(told)).toEqual(new Set(['spill-1']))
  })

  test('are each reached by pressing again where they lie on each other', async () => {
    const spot = { kind: 'residue', id: 'spot', side: 'top', at: SPILL, radiusMm: 9 } as const
    const { hand, props, update } = await show({ marks: [...exampleMarks, spot] })
    hand.click(SPILL)
    expect(props.onSelect).toHaveBeenLastCalledWith({ kind: 'mark', id: 'spill-1' })
    await update({ selection: { kind: 'mark', id: 'spill-1' } })
    hand.click(SPILL)
    expect(props.onSelect).toHaveBeenLastCalledWith({ kind: 'mark', id: 'spot' })
  })

  test('follow the hand at once, before the shell has answered', async () => {
    const { hand, props } = await show({ marks: exampleMarks })
    const { reach } = themes.paper
    const to = { x: 162, y: 92 }
    expect(countNear(hand.look(SPILL, 4), reach)).toBeGreaterThan(40)
    hand.press(SPILL)
    await hand.moveTo({ x: 150, y: 87 })
    await hand.moveTo(to)
    expect(countNear(hand.look(to, 4), reach)).toBeGreaterThan(40)
    expect(countNear(hand.look(SPILL, 4), reach)).toBeLessThan(10)
    const [mark, ...how] = vi.mocked(props.onMarkEdit).mock.lastCall ?? []
    expect([mark?.id, ...how]).toEqual(['spill-1', 'move', 'drag'])
    const at = mark?.kind === 'spill' ? mark.at : undefined
    expect(at?.x).toBeCloseTo(to.x, 6)
    expect(at?.y).toBeCloseTo(to.y, 6)
    const calls = vi.mocked(props.onMarkEdit).mock.calls.length
    hand.release(to)
    expect(vi.mocked(props.onMarkEdit).mock.lastCall).toEqual([mark, 'move', 'drop'])
    expect(vi.mocked(props.onMarkEdit).mock.lastCall?.[0]).toBe(mark)
    expect(vi.mocked(props.onMarkEdit).mock.calls).toHaveLength(calls + 1)
  })

  test('go back where they were with Escape', async () => {
    const { hand, props } = await show({ marks: exampleMarks })
    hand.press(SPILL)
    await hand.moveTo({ x: 160, y: 90 })
    hand.key('Escape')
    expect(lastEdit(props)).toEqual([{ id: 'spill-1', at: SPILL }, 'move', 'drop'])
    hand.release({ x: 160, y: 90 })
    expect(lastEdit(props)).toEqual([{ id: 'spill-1', at: SPILL }, 'move', 'drop'])
  })

  test('are selected by a press, nudged by arrow keys, removed by Delete', async () => {
    const { hand, props, update } = await show({ marks: exampleMarks })
    hand.click(SPILL)
    expect(props.onSelect).toHaveBeenLastCalledWith({ kind: 'mark', id: 'spill-1' })
    await update({ selection: { kind: 'mark', id: 'spill-1' } })
    hand.key('ArrowUp')
    expect(lastEdit(props)).toEqual([{ id: 'spill-1', at: { x: 147, y: 86 } }, 'move', 'drop'])
    hand.key('ArrowLeft', true)
    expect(lastEdit(props)).toEqual([{ id: 'spill-1', at: { x: 142, y: 85 } }, 'move', 'drop'])
    hand.key('Delete')
    expect(props.onMarkRemove).toHaveBeenCalledWith('spill-1')
  })

  test('are turned and resized by their handles', async () => {
    const { hand, props, update } = await show({ marks: exampleMarks, selection: { kind: 'mark', id: 'spill-1' } })
    const tip = { x: SPILL.x, y: SPILL.y - 46 / props.camera.getState().scale }
    hand.press(tip)
    await hand.moveTo({ x: SPILL.x + 8, y: SPILL.y })
    hand.release({ x: SPILL.x + 8, y: SPILL.y })
    expect(props.onMarkEdit).toHaveBeenLastCalledWith(
      expect.objectContaining({ id: 'spill-1', downDeg: 0, at: SPILL }),
      'down',
      'drop',
    )
    await update({ selection: { kind: 'mark', id: 'clean-1' } })
    hand.press({ x: 173, y: 40 })
    await hand.moveTo({ x: 175, y: 40 })
    hand.release({ x: 175, y: 40 })
    expect(props.onMarkEdit).toHaveBeenLastCalledWith(
      expect.objectContaining({ id: 'clean-1', radiusMm: 5 }),
      'radius',
      'drop',
    )
  })

  test('are drawn with the tool in hand: a press, a pull, a line of presses', async () => {
    const { hand, props, update } = await show({ tool: 'spill' })
    hand.click(SPILL)
    const spill = vi.mocked(props.onMarkAdd).mock.lastCall?.[0]
    expect(spill).toMatchObject({ kind: 'spill', side: 'top' })
    await update({ tool: 'residue' })
    hand.press({ x: 100, y: 100 })
    await hand.moveTo({ x: 103, y: 104 })
    hand.release({ x: 103, y: 104 })
    expect(vi.mocked(props.onMarkAdd).mock.lastCall?.[0]).toMatchObject({ kind: 'residue', radiusMm: 5 })
    await update({ tool: 'dam' })
    for (const at of [
      { x: 90, y: 100 },
      { x: 95, y: 102 },
      { x: 99, y: 98 },
    ]) {
      await hand.moveTo(at)
      hand.click(at)
    }
    hand.key('Enter')
    const dam = vi.mocked(props.onMarkAdd).mock.lastCall?.[0]
    expect(dam?.kind === 'dam' ? dam.path.map((p) => [Math.round(p.x), Math.round(p.y)]) : dam).toEqual([
      [90, 100],
      [95, 102],
      [99, 98],
    ])
    expect(props.onSelect).not.toHaveBeenCalled()
  })

  test('leave nothing behind when the tool is put away in the middle', async () => {
    const { hand, props, update } = await show({ tool: 'dam' })
    hand.click({ x: 90, y: 100 })
    await hand.moveTo({ x: 95, y: 102 })
    await update({ tool: 'select' })
    hand.key('Enter')
    expect(props.onMarkAdd).not.toHaveBeenCalled()
  })
})
