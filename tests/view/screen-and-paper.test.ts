/** The sheet on the screen and the printed picture draw the same: colours, hatch, patterns, symbols and where words stand. */
import { describe, expect, test } from 'vitest'
import hitch from '../../boards/hitch-12.json'
import { drawSheet, loadView, themes } from '../../src/case/index.ts'
import { type Mark, ringsOf, type SpillMark } from '../../src/spill/index.ts'
import { createCameraStore } from '../../src/view/sheet/cameraStore.ts'
import { frameOf } from '../../src/view/sheet/draw/frame.ts'
import { createHandStore } from '../../src/view/sheet/handStore.ts'
import { drawBoardLayer, drawFieldLayer, drawHandLayer } from '../../src/view/sheet/paneLayers.ts'
import { panesOf } from '../../src/view/sheet/pure/camera.ts'
import { buildScene } from '../../src/view/sheet/pure/scene.ts'
import { nothingJudged } from '../../src/suspects/index.ts'
import { alike, notingCanvas, type Painted, paintedIn } from '../support/both-faces.ts'
import { bareReach, boardFrom, tallyOf } from '../support/sheetExample.ts'

const model = boardFrom(hitch)
const [first, second, third] = model.memories.filter(({ side }) => side === 'top')
if (first === undefined || second === undefined || third === undefined) throw new Error('too few packages')

/** Of the picture: 8 mm around the board, and five pixels of the screen on a millimetre of paper. */
const MARGIN_MM = 8
const PX_PER_MM = 5

const spill: SpillMark = {
  kind: 'spill',
  id: 's',
  side: 'top',
  at: { x: model.box.minX + 60, y: model.box.minY + 60 },
  sdMm: 4,
  substance: 'coolant-eg',
  amount: { volumeMl: 0.4 },
  amountSdLog: 0,
  downDeg: -90,
  pressed: 'no',
  pushMm: 0,
  reachesOtherSide: false,
}
const at = (x: number, y: number) => ({ x: model.box.minX + x, y: model.box.minY + y })
const marks: readonly Mark[] = [
  spill,
  { kind: 'residue', id: 'r', side: 'top', at: at(90, 30), radiusMm: 6 },
  { kind: 'film', id: 'f', side: 'top', at: at(120, 70), radiusMm: 3, path: [at(120, 70), at(140, 76)] },
  {
    kind: 'corrosion',
    id: 'c',
    side: 'top',
    at: at(40, 30),
    radiusMm: 5,
    outline: [at(35, 25), at(46, 26), at(40, 36)],
  },
  { kind: 'clean', id: 'k', side: 'top', at: at(150, 40), radiusMm: 6 },
  { kind: 'slip', id: 't', side: 'top', at: at(25, 70), radiusMm: 3 },
  { kind: 'dam', id: 'd', side: 'top', path: [at(70, 85), at(100, 85), at(110, 80)] },
  { kind: 'note', id: 'n', side: 'top', at: at(20, 15), text: 'screws were loose' },
  { kind: 'residue', id: 'below', side: 'bottom', at: at(60, 60), radiusMm: 6 },
]
const parts = [
  tallyOf(model, first.ref, { A0: 5000, A1: 12 }),
  tallyOf(model, second.ref, { B0: 3 }),
  untested(tallyOf(model, third.ref, {})),
]
const reach = bareReach(model, spill.at, 9)
const suspects = { ...nothingJudged, lift: [first.ref, second.ref, third.ref] }
const substanceName = (): string => 'coolant'

function untested(tally: ReturnType<typeof tallyOf>): ReturnType<typeof tallyOf> {
  const lanes = (of: (typeof tally.channels)[number]) =>
    of.lanes.map((lane) => ({ ...lane, state: 'untested' as const }))
  return { ...tally, channels: tally.channels.map((channel) => ({ ...channel, lanes: lanes(channel) })) }
}

function onPaper(side: 'top' | 'bottom'): Painted[] {
  const svg = drawSheet({
    model,
    side,
    show: ['load', 'reach', 'marks', 'lift'],
    marks,
    tally: { parts, rows: { read: 3, unreadable: 0, unmapped: 0, skipped: 0 }, troubles: [], level: 'labels' },
    assessment: { reaches: [{ mark: 's', reach }], suspects, faults: [] },
    title: 'a sheet',
    substanceName,
  })
  return paintedIn(svg)
}

function onScreen(side: 'top' | 'bottom'): Painted[] {
  const { ctx, painted } = notingCanvas(1 / PX_PER_MM, (text, size, bold) => text.length * size * (bold ? 0.58 : 0.54))
  const { minX, maxX, minY, maxY } = model.box
  const camera = createCameraStore(model.box)
  camera.setState({
    centre: { x: (minX + maxX) / 2, y: (minY + maxY) / 2 },
    scale: PX_PER_MM,
    side,
    width: (maxX - minX + 2 * MARGIN_MM) * PX_PER_MM,
    height: (maxY - minY + 2 * MARGIN_MM) * PX_PER_MM,
  })
  const [pane] = panesOf(camera.getState())
  if (pane === undefined) throw new Error('no pane')
  const frame = frameOf(ctx, camera.getState(), pane, themes.paper)
  const scene = buildScene(model)
  const overlays = { errorLoad: true, reach: true, field: false, liftOrder: true, labels: true }
  const rings = reach.fields.filter((field) => field.side === side).flatMap((field) => ringsOf(field, reach.radiusMm))
  const nothing = () => undefined
  drawBoardLayer(frame, {
    scene,
    load: loadView(model, parts),
    proof: undefined,
    labels: true,
    names: undefined,
    photos: [],
  })
  drawFieldLayer(frame, model, undefined, rings, [], undefined)
  drawHandLayer(frame, {
    scene,
    props: {
      model,
      camera,
      theme: 'paper',
      overlays,
      tallyParts: parts,
      reach,
      suspects,
      marks,
      selection: undefined,
      hovered: undefined,
      tool: 'select',
      substanceName,
      onSelect: nothing,
      onHover: nothing,
      onMarkAdd: nothing,
      onMarkEdit: nothing,
    },
    rings,
    isotherms: [],
    hand: createHandStore().getState(),
    covered: [],
  })
  return painted
}

const { paper } = themes
/** Colours that carry a meaning, and ink where it is a badge or a symbol: what a board's plain outlines do not use. */
const MEANING = new Set([paper.load, paper.reach, paper.reachText, paper.residue, paper.residueText, paper.clean])

const without = (these: readonly Painted[], those: readonly Painted[]): Painted[] =>
  these.filter((one) => !those.some((other) => alike(one, other)))

describe.each(['top', 'bottom'] as const)('on the %s', (side) => {
  const [screen, print] = [onScreen(side), onPaper(side)]
  const told = (painted: readonly Painted[]): Painted[] =>
    painted.filter(({ kind, colour }) => kind !== 'text' && MEANING.has(colour))

  test('every shape in a colour with a meaning is on both, to a hundredth of a millimetre', () => {
    expect(told(print).length).toBeGreaterThan(side === 'top' ? 30 : 2)
    expect(without(told(print), screen)).toEqual([])
    expect(without(told(screen), print)).toEqual([])
  })

  test('words beside marks and rings, and the numbers of the lift list, stand at the same places', () => {
    const words = new Set(['coolant', 'residue seen', 'film seen', 'corrosion', 'clean', 'tool slipped', '1', '2', '3'])
    const chosen = (painted: readonly Painted[]): Painted[] =>
      painted.filter(({ kind, text }) => kind === 'text' && (words.has(text) || /^[\d.]+ mm$/.test(text)))
    const scaleBar = (one: Painted): boolean => one.colour !== paper.ink || !one.text.endsWith(' mm')
    const [shown, printed] = [chosen(screen).filter(scaleBar), chosen(print).filter(scaleBar)]
    if (side === 'top') expect(printed.length).toBeGreaterThan(8)
    expect(without(printed, shown)).toEqual([])
    expect(without(shown, printed)).toEqual([])
  })

  test('refs of parts stand in the same places and sizes of both', () => {
    const refs = new Set(model.parts.filter((part) => part.side === side).map(({ ref }) => ref))
    const printed = print.filter(({ kind, text }) => kind === 'text' && refs.has(text))
    if (side === 'top') expect(printed.length).toBeGreaterThan(20)
    expect(without(printed, screen)).toEqual([])
  })
})
