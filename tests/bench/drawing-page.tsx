/** Runs in the browser: mounts the sheet with 50,000 pads, pans it, and draws the same rectangles bare, round by round. */
import { createRoot } from 'react-dom/client'
import { boxOf, rectangleAround } from '../../src/base/index.ts'
import type { BoardModel, PlacedPart } from '../../src/board/index.ts'
import { installTokens, themes } from '../../src/view/look/index.ts'
import { frameOf } from '../../src/view/sheet/draw/frame.ts'
import { drawPads } from '../../src/view/sheet/draw/pads.ts'
import { createCameraStore, Sheet } from '../../src/view/sheet/index.ts'
import { panesOf } from '../../src/view/sheet/pure/camera.ts'
import { buildScene } from '../../src/view/sheet/pure/scene.ts'

const WIDTH_PX = 1440
const HEIGHT_PX = 900
const SCALE = 10.1
const COLUMNS = 25
const ROWS = 8
const PAD_MM = 0.4
const WARM_UP_FRAMES = 6
const FRAMES = 75

/** 200 parts of 10 by 25 pads each, all in view. */
function benchModel(): BoardModel {
  const parts = Array.from({ length: COLUMNS * ROWS }, (_, i) => benchPart(i % COLUMNS, Math.floor(i / COLUMNS)))
  const outline = [
    { x: 0, y: 0 },
    { x: 142, y: 0 },
    { x: 142, y: 89 },
    { x: 0, y: 89 },
  ]
  return {
    name: 'bench',
    description: {
      format: 'liftmap-board',
      version: 1,
      name: 'bench',
      outline,
      holes: [],
      thicknessMm: 1.6,
      copper: [],
      parts: [],
      rails: [],
      memory: { channels: [] },
    },
    outline,
    cutouts: [],
    drills: [],
    box: boxOf(outline),
    parts,
    partByRef: new Map(parts.map((part) => [part.ref, part])),
    core: undefined,
    memories: [],
    regions: [],
    regionById: new Map(),
    corridors: [],
    corridorByLane: new Map(),
    channels: [],
    channelById: new Map(),
    lanes: [],
    laneById: new Map(),
    rails: [],
    addressMap: undefined,
  }
}

function benchPart(column: number, row: number): PlacedPart {
  const at = { x: 3.5 + column * 5.62, y: 6 + row * 11 }
  const outline = rectangleAround(5.2, 10.8).map((p) => ({ x: p.x + at.x, y: p.y + at.y }))
  const ref = `U${row * COLUMNS + column + 1}`
  return {
    ref,
    kind: 'other',
    side: 'top',
    placement: { at, rotationDeg: 0, mirrored: false },
    widthMm: 5.2,
    lengthMm: 10.8,
    heightMm: 1,
    standoffMm: 0.3,
    outline,
    box: boxOf(outline),
    description: { ref, kind: 'other', side: 'top', at, rotationDeg: 0, bonding: 'none' },
    pads: Array.from({ length: 250 }, (_, i) => ({
      number: String(i + 1),
      at: { x: at.x + ((i % 10) - 4.5) * 0.5, y: at.y + (Math.floor(i / 10) - 12) * 0.43 },
      widthMm: PAD_MM,
      lengthMm: PAD_MM,
      rotationDeg: 0,
      round: false,
      net: undefined,
      signal: undefined,
    })),
    ballPitchMm: undefined,
  }
}

const inNextFrame = window.requestAnimationFrame.bind(window)
const nextFrame = (): Promise<void> => new Promise((done) => inNextFrame(() => done()))

/** What the sheet would draw in the next frame, held until the bench draws it. */
const held = new Map<number, FrameRequestCallback>()
let lastHeld = 0

function holdFrames(): void {
  window.requestAnimationFrame = (draw) => {
    held.set(++lastHeld, draw)
    return lastHeld
  }
  window.cancelAnimationFrame = (id) => void held.delete(id)
}

function drawHeld(): void {
  const draws = [...held.values()]
  held.clear()
  for (const draw of draws) draw(performance.now())
}

function percentile(sorted: readonly number[], share: number): number {
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN
}

/** Reads one pixel, so that the raster is done when the clock stops. */
function settle(canvas: HTMLCanvasElement): void {
  canvas.getContext('2d')?.getImageData(3, 3, 1, 1)
}

function contextOf(canvas: HTMLCanvasElement): CanvasRenderingContext2D {
  const ctx = canvas.getContext('2d')
  if (ctx === null) throw new Error('no canvas')
  return ctx
}

function newCanvas(): HTMLCanvasElement {
  const canvas = document.createElement('canvas')
  canvas.width = WIDTH_PX
  canvas.height = HEIGHT_PX
  document.body.append(canvas)
  return canvas
}

async function mountSheet(model: BoardModel) {
  const camera = createCameraStore(model.box)
  const host = document.createElement('div')
  host.style.cssText = `width:${WIDTH_PX}px;height:${HEIGHT_PX}px`
  document.body.append(host)
  const nothing = () => undefined
  createRoot(host).render(
    <Sheet
      model={model}
      camera={camera}
      theme="paper"
      overlays={{ errorLoad: true, reach: true, field: true, liftOrder: true, labels: true }}
      tallyParts={[]}
      reach={undefined}
      suspects={undefined}
      marks={[]}
      selection={undefined}
      hovered={undefined}
      tool="select"
      onSelect={nothing}
      onHover={nothing}
      onMarkAdd={nothing}
      onMarkEdit={nothing}
    />,
  )
  while (camera.getState().width === 0 || document.querySelector('[data-pane] canvas') === null) await nextFrame()
  camera.setState({ scale: SCALE })
  for (let i = 0; i < 20; i++) {
    drawHeld()
    await nextFrame()
  }
  return camera
}

async function measure(): Promise<object> {
  installTokens(document)
  holdFrames()
  const model = benchModel()
  const pads = buildScene(model).sides.top.pads
  const camera = await mountSheet(model)
  const pane = panesOf(camera.getState())[0]
  if (pane === undefined) throw new Error('no pane')
  const bare = newCanvas()
  const padsOnly = newCanvas()
  const drawBare = () => {
    const ctx = contextOf(bare)
    const { centre, scale } = camera.getState()
    ctx.clearRect(0, 0, WIDTH_PX, HEIGHT_PX)
    ctx.fillStyle = themes.paper.pad
    const size = PAD_MM * scale
    for (let i = 0; i < pads.count; i++) {
      const x = ((pads.xMm[i] ?? 0) - centre.x) * scale + WIDTH_PX / 2 - size / 2
      const y = HEIGHT_PX / 2 - ((pads.yMm[i] ?? 0) - centre.y) * scale - size / 2
      ctx.fillRect(x, y, size, size)
    }
    settle(bare)
  }
  const drawPadsOnly = () => {
    const ctx = contextOf(padsOnly)
    ctx.clearRect(0, 0, WIDTH_PX, HEIGHT_PX)
    drawPads(frameOf(ctx, camera.getState(), pane, themes.paper), pads)
    settle(padsOnly)
  }
  const drawSheet = () => {
    drawHeld()
    for (const canvas of document.querySelectorAll<HTMLCanvasElement>('[data-pane] canvas')) settle(canvas)
  }
  const times = { sheet: [] as number[], padsOnly: [] as number[], bare: [] as number[] }
  const draws = { sheet: drawSheet, padsOnly: drawPadsOnly, bare: drawBare }
  const turns = ['bare', 'padsOnly', 'sheet'] as const
  for (let i = 0; i < WARM_UP_FRAMES + FRAMES; i++) {
    camera.getState().panBy(i % 2 === 0 ? 3.3 : -3.1, i % 2 === 0 ? -1.7 : 1.9)
    await nextFrame()
    await nextFrame()
    for (const [k] of turns.entries()) {
      const name = turns[(i + k) % turns.length] ?? 'bare'
      const start = performance.now()
      draws[name]()
      if (i >= WARM_UP_FRAMES) times[name].push(performance.now() - start)
    }
  }
  return { pads: pads.count, ...summary(times.sheet, times.padsOnly, times.bare) }
}

/** Ratios frame by frame, so that a machine that is busy for a while slows both sides of a ratio. */
function summary(sheet: number[], padsOnly: number[], bare: number[]): object {
  const milliseconds = (times: number[]) => {
    const sorted = times.toSorted((a, b) => a - b)
    return { medianMs: Number(percentile(sorted, 0.5).toFixed(2)), p95Ms: Number(percentile(sorted, 0.95).toFixed(2)) }
  }
  const ratio = (times: number[]) =>
    Number(
      percentile(
        times.map((time, i) => time / (bare[i] ?? Number.NaN)).toSorted((a, b) => a - b),
        0.5,
      ).toFixed(3),
    )
  return {
    frames: bare.length,
    sheet: milliseconds(sheet),
    padsOnly: milliseconds(padsOnly),
    bareCanvas: milliseconds(bare),
    ratioSheetToBare: ratio(sheet),
    ratioPadsToBare: ratio(padsOnly),
    aim: 1.5,
  }
}

const result = document.createElement('pre')
result.textContent = JSON.stringify(await measure().catch((error: unknown) => ({ failed: String(error) })))
result.id = 'measured'
document.body.append(result)
