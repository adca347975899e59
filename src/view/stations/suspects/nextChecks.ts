/** Next checks: ranked anew while they are shown, answered, taken back, shown on the sheet. */
import type { Case, Station } from '../../../case/index.ts'
import type { CheckAnswer, RankedCheck } from '../../../suspects/index.ts'
import { isAbort } from '../../../workers/client.ts'
import { calls } from '../../../workers/contract.ts'
import { latestWins } from '../../../workers/latest.ts'
import type { Selection } from '../../sheet/index.ts'
import { noChecks } from '../../stores/checkStore.ts'
import type { Desk } from '../../stores/desk.ts'
import { inputOf, type Question, questionOf } from '../../actions/assess.ts'
import { editCase } from '../../actions/edit.ts'
import { showOnSheet } from '../../actions/show.ts'

/** Stations that tell what is proposed: the plan says what all of it is worth. */
const SHOWS: ReadonlySet<Station> = new Set(['suspects', 'plan'])

/** Long enough that a hand that drags a mark has come to rest. */
const CALM_MS = 350

/**
 * While the suspects' or the plan's station is open, every new assessment is followed by a new ranking. The reader ranks, not the
 * reasoner, so that a mark that is dragged never waits for it.
 * @returns a function that ends the watch
 */
export function watchForNextChecks(desk: Desk): () => void {
  const ask = latestWins(({ question, assessment }: Due) => rank(desk, question, assessment, () => due() === undefined))
  let timer: ReturnType<typeof setTimeout> | undefined
  let asked: object | undefined
  const due = (): Due | undefined => {
    const { state, assessment } = desk.results.getState()
    if (state !== 'done' || assessment === undefined || !SHOWS.has(desk.screen.getState().station)) return undefined
    const question = asked === assessment ? undefined : questionOf(desk)
    return question?.tally === undefined ? undefined : { question, assessment }
  }
  const look = (): void => {
    clearTimeout(timer)
    // what stands there is of a moment ago from now on, not only once the hand rests
    if (due() !== undefined) desk.nextChecks.setState({ state: 'working' })
    timer = setTimeout(askIfChanged, CALM_MS)
  }
  const askIfChanged = (): void => {
    const next = due()
    if (next === undefined) return
    asked = next.assessment
    ask(next).catch(() => undefined)
  }
  const ends = [
    desk.results.subscribe(look),
    desk.screen.subscribe((now, before) => {
      if (now.station !== before.station) look()
    }),
    desk.cases.subscribe((now, before) => {
      if (now.board === before.board) return
      asked = undefined
      desk.nextChecks.setState(noChecks)
    }),
  ]
  return () => {
    clearTimeout(timer)
    for (const end of ends) end()
  }
}

interface Due {
  readonly question: Question
  readonly assessment: object
}

/** @param isNewest whether no other assessment has come since it was asked */
async function rank(desk: Desk, question: Question, follows: object, isNewest: () => boolean): Promise<void> {
  const started = performance.now()
  desk.nextChecks.setState({ state: 'working' })
  try {
    const { board } = question
    const result = await desk.reader.call(calls.nextSteps, inputOf(question))
    if (desk.cases.getState().board?.model !== board) return
    const tookMs = performance.now() - started
    const state = isNewest() ? 'done' : 'working'
    if (result.ok) desk.nextChecks.setState({ state, ...result.value, tookMs, follows })
    else desk.nextChecks.setState({ state: 'failed', ranked: undefined, proposal: undefined, tookMs })
  } catch (reason) {
    if (!isAbort(reason)) desk.nextChecks.setState({ state: 'failed', ranked: undefined, proposal: undefined })
  }
}

/** What was found goes where it belongs: a mark on the sheet for a place that was looked at, else an answer in the case. */
export function answerCheck(desk: Desk, { check, at, look }: RankedCheck, found: boolean): void {
  if (look !== undefined) {
    const { mark } = look
    editCase(desk, (c) => ({
      ...c,
      marks: [...c.marks, { ...mark, id: freeMarkId(c, mark.id), kind: found ? 'residue' : 'clean' }],
    }))
    return
  }
  const answer: CheckAnswer = { check, at, found, on: new Date().toISOString() }
  editCase(desk, (c) => ({ ...c, checks: [...c.checks.filter((each) => !isSame(each, answer)), answer] }))
}

const isSame = (a: CheckAnswer, b: CheckAnswer): boolean => a.check === b.check && a.at === b.at

function freeMarkId({ marks }: Case, wanted: string): string {
  const taken = new Set(marks.map(({ id }) => id))
  let id = wanted
  for (let n = 2; taken.has(id); n++) id = `${wanted}-${n}`
  return id
}

export const takeBackAnswer = (desk: Desk, answer: CheckAnswer): void =>
  editCase(desk, (c) => ({ ...c, checks: c.checks.filter((each) => !isSame(each, answer)) }))

/** What lights up on the sheet for a check. */
export function targetOf({
  check,
  at,
  refs,
  lanes,
}: Pick<RankedCheck, 'check' | 'at' | 'refs' | 'lanes'>): Selection | undefined {
  const [lane] = lanes
  const [ref] = refs
  if (check.startsWith('rail-')) return { kind: 'rail', id: at }
  if (lane !== undefined) return { kind: 'lane', id: lane }
  return ref === undefined ? undefined : { kind: 'part', id: ref }
}

export const lightUp = (desk: Desk, target: Selection | undefined): void => desk.screen.setState({ hovered: target })

export function showTarget(desk: Desk, check: RankedCheck): void {
  const target = targetOf(check)
  if (target !== undefined) showOnSheet(desk, target)
}

/** To the measuring sheet, with the rail or stage selected. */
export function goMeasure(desk: Desk, check: RankedCheck): void {
  showTarget(desk, check)
  lightUp(desk, undefined)
  desk.screen.setState({ station: 'cold-measuring' })
}
