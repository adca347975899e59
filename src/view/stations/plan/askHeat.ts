/** One pass's heat on the screen: its run, the moment that is shown, play, and changes that are tried. */
import { type Fault, say } from '../../../base/index.ts'
import type { HeatSetting } from '../../../heat/index.ts'
import type { PlanStep } from '../../../plan/index.ts'
import { isAbort } from '../../../workers/client.ts'
import { calls } from '../../../workers/contract.ts'
import type { Desk } from '../../stores/desk.ts'
import { endOf, hottestMoment } from './heatFacts.ts'
import { hasHeat } from './planWords.ts'

const running = new WeakMap<Desk, AbortController>()

/** Opens a step's heat: the run begins, and the sheet turns to it. */
export function lookAtHeat(desk: Desk, step: PlanStep): void {
  if (!hasHeat(step)) return
  showTargets(desk, step.refs)
  void runHeat(desk, step.n, step.refs, step.setting)
}

export function closeHeat(desk: Desk): void {
  running.get(desk)?.abort()
  desk.plan.setState({ look: undefined, playing: false })
}

async function runHeat(desk: Desk, n: number, refs: readonly string[], setting: HeatSetting): Promise<void> {
  const model = desk.cases.getState().board?.model
  if (model === undefined) return
  running.get(desk)?.abort()
  const abort = new AbortController()
  running.set(desk, abort)
  const look = { n, refs, setting, progress: undefined, run: undefined, faults: [], tried: undefined }
  desk.plan.setState({ look: { ...look, state: 'working' }, playing: false })
  try {
    const result = await desk.planner.ask(
      model,
      calls.heatFor,
      { setting },
      {
        signal: abort.signal,
        onProgress: (progress) => changeLook(desk, abort, { progress }),
      },
    )
    if (abort.signal.aborted) return
    if (!result.ok) return changeLook(desk, abort, { state: 'failed', faults: result.faults })
    changeLook(desk, abort, { state: 'done', run: result.value, progress: undefined })
    desk.plan.setState({ timeS: Math.min(endOf(result.value), hottestMoment(result.value, refs)) })
  } catch (reason) {
    if (!isAbort(reason)) changeLook(desk, abort, { state: 'failed', faults: [brokenFault(say('the heat'), reason)] })
  }
}

type Look = NonNullable<ReturnType<Desk['plan']['getState']>['look']>

function changeLook(desk: Desk, abort: AbortController, change: Partial<Look>): void {
  if (abort.signal.aborted) return
  desk.plan.setState(({ look }) => (look === undefined ? {} : { look: { ...look, ...change } }))
}

const AROUND_MM = 26

/** Turns the sheet to some parts, with what is around them. */
export function showTargets(desk: Desk, refs: readonly string[]): void {
  const { board } = desk.cases.getState()
  if (board === undefined) return
  const parts = refs.flatMap((ref) => board.model.partByRef.get(ref) ?? [])
  const first = parts[0]
  if (first === undefined) return
  const boxes = parts.map((part) => part.box)
  const camera = board.camera.getState()
  if (camera.side !== 'both' && camera.side !== first.side) camera.show(first.side)
  camera.showBox({
    minX: Math.min(...boxes.map((box) => box.minX)) - AROUND_MM,
    minY: Math.min(...boxes.map((box) => box.minY)) - AROUND_MM,
    maxX: Math.max(...boxes.map((box) => box.maxX)) + AROUND_MM,
    maxY: Math.max(...boxes.map((box) => box.maxY)) + AROUND_MM,
  })
}

export const showMoment = (desk: Desk, timeS: number): void => desk.plan.setState({ timeS })

/** Board seconds that pass in one second on the screen. */
const SPEED = 20

/** Plays from the moment that is shown, from the start after the end; stops by itself there. */
export function playHeat(desk: Desk): void {
  const { look, timeS } = desk.plan.getState()
  const run = look?.run
  if (run === undefined) return
  const end = endOf(run)
  desk.plan.setState({ playing: true, timeS: timeS >= end ? 0 : timeS })
  let before = performance.now()
  const step = (now: number): void => {
    const state = desk.plan.getState()
    if (!state.playing || state.look?.run !== run) return
    const next = Math.min(end, state.timeS + ((now - before) / 1000) * SPEED)
    before = now
    desk.plan.setState({ timeS: next, playing: next < end })
    if (next < end) requestAnimationFrame(step)
  }
  requestAnimationFrame(step)
}

export const pauseHeat = (desk: Desk): void => desk.plan.setState({ playing: false })

/** A worker that broke off. */
export const brokenFault = (path: string, reason: unknown): Fault => ({
  path,
  found: reason instanceof Error ? reason.message : String(reason),
  expected: say('an answer'),
  todo: say('Ask again; if it stays so, save the case and load the page again.'),
})
