/** Hunts for a short: started, changed and removed in the case; asked of the worker, the latest first. */
import type { BoardModel, Rail, Side } from '../../../../board/index.ts'
import type { ProbePlace, ShortAnswer, ShortHunt } from '../../../../measure/index.ts'
import { boxOf, decimals, distance, type Point, type Result, say } from '../../../../base/index.ts'
import { isAbort } from '../../../../workers/client.ts'
import { calls } from '../../../../workers/contract.ts'
import { latestWins } from '../../../../workers/latest.ts'
import type { Desk } from '../../../stores/desk.ts'
import { shortStoreOf } from './shortStore.ts'
import { editCase } from '../../../actions/edit.ts'
import { takeTool } from '../../../actions/tools.ts'

const FIRST_CURRENT_A = 1
const METER_NOISE_MILLIVOLT = 0.02

/** A hunt begins at the rail's first point, with little current. */
export function startHunt(desk: Desk, rail: Rail): void {
  const { board, history } = desk.cases.getState()
  if (board === undefined || history === undefined) return
  const first = rail.points[0]
  const part = board.model.partByRef.get(rail.stages[0] ?? rail.feeds[0] ?? '')
  const { box } = board.model
  const middle = { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 }
  const taken = new Set(history.present.shorts.map(({ id }) => id))
  let id = `short-${desk.nextNumber()}`
  while (taken.has(id)) id = `short-${desk.nextNumber()}`
  const hunt: ShortHunt = {
    id,
    rail: rail.name,
    side: first?.side ?? part?.side ?? 'top',
    currentA: FIRST_CURRENT_A,
    sourceAt: first?.at ?? part?.placement.at ?? middle,
    readings: [],
    noiseMillivolt: METER_NOISE_MILLIVOLT,
  }
  editCase(desk, (c) => ({ ...c, shorts: [...c.shorts, hunt] }))
  openHunt(desk, id)
  showSide(desk, hunt.side)
  showRail(desk, rail)
}

/** The whole rail in sight, its copper and its points among it. */
function showRail(desk: Desk, rail: Rail): void {
  const board = desk.cases.getState().board
  if (board === undefined) return
  const parts = [...rail.feeds, ...rail.stages].flatMap((ref) => board.model.partByRef.get(ref)?.outline ?? [])
  const corners = (rail.copper ?? []).flatMap(({ polygon }) => polygon)
  const points = [...parts, ...corners, ...rail.points.map(({ at }) => at)]
  if (points.length > 0) board.camera.getState().showBox(boxOf(points), RIM_PX)
}

const RIM_PX = 50

export const openHunt = (desk: Desk, id: string): void =>
  shortStoreOf(desk).setState({ open: id, place: undefined, pointing: 'reading' })

export const editHunt = (desk: Desk, id: string, change: (hunt: ShortHunt) => ShortHunt, joinKey?: string): void =>
  editCase(desk, (c) => ({ ...c, shorts: c.shorts.map((hunt) => (hunt.id === id ? change(hunt) : hunt)) }), joinKey)

/** Another side for the probes: the sheet turns with it. */
export function turnHunt(desk: Desk, id: string, side: Side): void {
  editHunt(desk, id, (hunt) => ({ ...hunt, side }))
  shortStoreOf(desk).setState({ place: undefined })
  showSide(desk, side)
}

function showSide(desk: Desk, side: Side): void {
  const camera = desk.cases.getState().board?.camera.getState()
  if (camera !== undefined && camera.side !== 'both' && camera.side !== side) camera.show(side)
}

export function removeHunt(desk: Desk, id: string): void {
  editCase(desk, (c) => ({ ...c, shorts: c.shorts.filter((hunt) => hunt.id !== id) }))
  shortStoreOf(desk).setState({ open: undefined, place: undefined })
  putProbeDown(desk)
}

export function addReading(desk: Desk, id: string, at: Point, millivolt: number): void {
  const { x, y } = at
  editHunt(desk, id, (hunt) => ({ ...hunt, readings: [...hunt.readings, { at: { x, y }, millivolt }] }))
  shortStoreOf(desk).setState({ place: undefined })
}

export const removeReading = (desk: Desk, id: string, index: number): void =>
  editHunt(desk, id, (hunt) => ({ ...hunt, readings: hunt.readings.filter((_, i) => i !== index) }))

export const changeReading = (desk: Desk, id: string, index: number, millivolt: number): void =>
  editHunt(desk, id, (hunt) => ({
    ...hunt,
    readings: hunt.readings.map((reading, i) => (i === index ? { ...reading, millivolt } : reading)),
  }))

export const choosePlace = (desk: Desk, place: ProbePlace | undefined): void => shortStoreOf(desk).setState({ place })

/** From now on a press on the sheet is a point of the hunt. */
export function takeProbe(desk: Desk, pointing: 'reading' | 'source'): void {
  shortStoreOf(desk).setState({ pointing })
  takeTool(desk, 'probe')
}

export function putProbeDown(desk: Desk): void {
  if (desk.screen.getState().tool === 'probe') takeTool(desk, 'select')
}

/** A press this near to a known point means that point. */
const SNAP_MM = 2.5

/** A press on the sheet with the probe in hand. */
export function probeAt(desk: Desk, pressed: Point, side: Side): void {
  const store = shortStoreOf(desk)
  const { open, pointing, answer } = store.getState()
  const shorts = desk.cases.getState().history?.present.shorts ?? []
  const hunt = shorts.find(({ id }) => id === open) ?? shorts.at(-1)
  if (hunt === undefined) return putProbeDown(desk)
  const at = { x: Math.round(pressed.x * 100) / 100, y: Math.round(pressed.y * 100) / 100 }
  const near = (answer?.places ?? [])
    .map((place) => ({ place, away: distance(place.at, at) }))
    .toSorted((a, b) => a.away - b.away)[0]
  const place = near !== undefined && near.away <= SNAP_MM ? near.place : { at, label: placeWords(at) }
  putProbeDown(desk)
  if (pointing === 'reading') {
    store.setState({ place })
    document.getElementById(MILLIVOLT_FIELD_ID)?.focus()
    return
  }
  editHunt(desk, hunt.id, (h) => ({ ...h, side, sourceAt: { x: place.at.x, y: place.at.y } }))
}

/** Lights a part and moves the sheet to it, with the panel left as it is. */
export function showPart(desk: Desk, ref: string): void {
  const board = desk.cases.getState().board
  const part = board?.model.partByRef.get(ref)
  if (board === undefined || part === undefined) return
  showSide(desk, part.side)
  const camera = board.camera.getState()
  const { minX, minY, maxX, maxY } = part.box
  camera.showBox({ minX: minX - AROUND_MM, minY: minY - AROUND_MM, maxX: maxX + AROUND_MM, maxY: maxY + AROUND_MM })
  desk.screen.setState({ hovered: { kind: 'part', id: ref } })
}

const AROUND_MM = 14

export const MILLIVOLT_FIELD_ID = 'short-millivolt'

export const placeWords = ({ x, y }: Point): string => `x ${decimals(x, 1)}, y ${decimals(y, 1)} mm`

const asks = new WeakMap<Desk, (hunt: ShortHunt) => Promise<Result<ShortAnswer>>>()

export async function askShort(desk: Desk, model: BoardModel, hunt: ShortHunt): Promise<void> {
  const store = shortStoreOf(desk)
  const ask = asks.get(desk) ?? latestWins((asked: ShortHunt) => desk.reasoner.call(calls.huntShort, { hunt: asked }))
  asks.set(desk, ask)
  store.setState({ state: 'working' })
  try {
    const result = await ask(hunt)
    if (result.ok) store.setState({ state: 'done', answer: result.value, askedOf: hunt, model, faults: [] })
    else store.setState({ state: 'failed', answer: undefined, askedOf: hunt, faults: result.faults })
  } catch (reason) {
    if (isAbort(reason)) return
    const found = reason instanceof Error ? reason.message : String(reason)
    const fault = {
      path: say('the search'),
      found,
      expected: say('an answer'),
      todo: say('Save the case and load the page again.'),
    }
    store.setState({ state: 'failed', answer: undefined, askedOf: hunt, faults: [fault] })
  }
}
