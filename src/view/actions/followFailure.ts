/** The sheet goes to what fails, once an opening, when the suspects or the spill are looked at. */
import { boxOf, type Box } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import type { Case, Station } from '../../case/index.ts'
import type { Tally } from '../../report/index.ts'
import type { CameraStore } from '../sheet/index.ts'
import { pointOfMark } from '../stores/derive.ts'
import type { Desk } from '../stores/desk.ts'

const AT: readonly Station[] = ['suspects', 'spill']
const CONTEXT_MM = 8

/** @returns a function that ends the watch */
export function watchForFailure(desk: Desk): () => void {
  const shown = new WeakSet<CameraStore>()
  const look = (): void => {
    const { board, history } = desk.cases.getState()
    const { state, assessment } = desk.results.getState()
    const { station, selection, tool } = desk.screen.getState()
    if (board === undefined || history === undefined || state !== 'done' || shown.has(board.camera)) return
    // a hand at work, or something that is looked at, keeps its view
    if (!AT.includes(station) || selection !== undefined || tool !== 'select') return
    const { reports, marks } = history.present
    const tally = desk.tallyOfCase(board.model, reports, desk.readings.getState().byId)
    const box = failureBox(board.model, { tally, lift: assessment?.suspects.lift ?? [], marks })
    if (box === undefined) return
    shown.add(board.camera)
    board.camera.getState().showBox(box)
  }
  const ends = [
    desk.results.subscribe(look),
    desk.screen.subscribe((now, before) => {
      if (now.station !== before.station) look()
    }),
  ]
  return () => {
    for (const end of ends) end()
  }
}

interface Failure {
  readonly tally: Tally | undefined
  readonly lift: readonly string[]
  readonly marks: Case['marks']
}

/** Parts that fail and the core that serves them, parts to lift and spills, with what lies around them; undefined while nothing fails. */
export function failureBox(model: BoardModel, { tally, lift, marks }: Failure): Box | undefined {
  const failing = (tally?.parts ?? []).filter(({ channels }) =>
    channels.some(({ lanes }) => lanes.some(({ state }) => state === 'fail')),
  )
  if (failing.length === 0) return undefined
  const core = model.core === undefined ? [] : [model.core.ref]
  const refs = new Set([...failing.map(({ ref }) => ref), ...core, ...lift])
  const corners = model.parts.flatMap(({ ref, box }) =>
    refs.has(ref)
      ? [
          { x: box.minX, y: box.minY },
          { x: box.maxX, y: box.maxY },
        ]
      : [],
  )
  const spills = marks.filter(({ kind }) => kind === 'spill').map(pointOfMark)
  const box = boxOf([...corners, ...spills])
  return {
    minX: box.minX - CONTEXT_MM,
    minY: box.minY - CONTEXT_MM,
    maxX: box.maxX + CONTEXT_MM,
    maxY: box.maxY + CONTEXT_MM,
  }
}
