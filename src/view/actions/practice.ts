/** A practice card: begun, gone on with after a reload, played action by action, ended. It is kept after each action. */
import { bad, type Fault, good, type Result, say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import {
  type KeptPractice,
  keptPractice,
  MOST_ACTIONS,
  MOST_SEED,
  type PracticeAction,
  type PracticeGame,
} from '../../rehearsal/index.ts'
import { isAbort } from '../../workers/client.ts'
import { calls } from '../../workers/contract.ts'
import type { Progress } from '../../workers/envelope.ts'
import type { Desk } from '../stores/desk.ts'
import { nothingPlayed, type PracticeState, type PracticeTable } from '../stores/practiceDesk.ts'

type PracticePart = Pick<Desk, 'practice' | 'caseShelf' | 'shelf'>

export const randomSeed = (): number => Math.floor(Math.random() * (MOST_SEED + 1))

/** Looks on the shelf whether a game goes on; once for each opening of the app. */
export async function findPractice(desk: PracticePart): Promise<void> {
  const { store } = desk.practice
  if (store.getState().stage !== 'unread' || store.getState().waiting !== undefined) return
  wait(desk, say('The card that is played is being looked for'))
  const kept = await desk.caseShelf.practice()
  if (!kept.ok) return stop(desk, kept.faults, { stage: 'choosing' })
  if (kept.value === undefined) return stop(desk, [], { stage: 'choosing' })
  await openKept(desk, kept.value)
}

export async function beginPractice(desk: PracticePart, game: PracticeGame): Promise<void> {
  await openKept(desk, keptPractice(game, []))
}

/** The same card from the beginning. */
export async function playAgain(desk: PracticePart): Promise<void> {
  const game = desk.practice.store.getState().table?.kept.game
  if (game !== undefined) await beginPractice(desk, game)
}

export async function leavePractice(desk: PracticePart): Promise<void> {
  desk.practice.endWorker()
  desk.practice.store.setState({ ...nothingPlayed, stage: 'choosing' })
  const forgotten = await desk.caseShelf.setPractice(undefined)
  if (!forgotten.ok) desk.practice.store.setState({ faults: forgotten.faults })
}

async function openKept(desk: PracticePart, kept: KeptPractice): Promise<void> {
  desk.practice.store.setState({ ...nothingPlayed, stage: 'playing' })
  await working(desk, say('The card is being made up'), async (onProgress) => {
    const model = await openBoard(desk, kept.game.board)
    if (!model.ok) return model
    return lookAt(desk, { model: model.value, kept }, onProgress)
  })
}

async function openBoard(desk: PracticePart, name: string): Promise<Result<BoardModel>> {
  const file = await desk.shelf.open(name)
  if (file === undefined) {
    const expected = say('a board that comes with the app')
    return bad({ path: 'board', found: name, expected, todo: say('Choose another board.') })
  }
  return desk.practice.worker().call(calls.openBoard, { text: await file.text() })
}

/** Does one thing to the card; at the hand-back the end follows. */
export async function doPractice(desk: PracticePart, action: PracticeAction): Promise<void> {
  const { table, waiting } = desk.practice.store.getState()
  if (table === undefined || waiting !== undefined) return
  if (action.kind !== 'hand-back' && table.kept.actions.length >= MOST_ACTIONS - 1) return stop(desk, [tooMuch])
  const kept = keptPractice(table.kept.game, [...table.kept.actions, action])
  await working(desk, waitingWords(action), async (onProgress) => {
    const seen = await lookAt(desk, { model: table.model, kept }, onProgress)
    if (!seen.ok || action.kind !== 'ask') return seen
    const proposed = await desk.practice.worker().call(calls.askPractice, inputOf(kept))
    if (proposed.ok) desk.practice.store.setState({ proposed: proposed.value })
    return proposed.ok ? good(undefined) : proposed
  })
}

function waitingWords({ kind }: PracticeAction): string {
  if (kind === 'ask') return say('Liftmap thinks it over')
  return kind === 'hand-back' ? say('The card goes back') : say('At the bench')
}

/** What is seen now, kept on the shelf; and the end, where the card was handed back. */
async function lookAt(
  desk: PracticePart,
  { model, kept }: Omit<PracticeTable, 'view'>,
  onProgress: (progress: Progress) => void,
): Promise<Result<undefined>> {
  const worker = desk.practice.worker()
  const view = await worker.call(calls.playPractice, inputOf(kept))
  if (!view.ok) return view
  desk.practice.store.setState({ table: { model, kept, view: view.value }, proposed: undefined })
  const saved = await desk.caseShelf.setPractice(kept)
  if (!saved.ok) return saved
  if (view.value.handedBack === undefined) return good(undefined)
  const result = await worker.call(calls.endPractice, inputOf(kept), { onProgress })
  if (result.ok) desk.practice.store.setState({ result: result.value })
  return result.ok ? good(undefined) : result
}

const inputOf = ({ game, actions }: KeptPractice) => ({ game, actions })

/** Whatever takes time says so while it does; what goes wrong is told. */
async function working(
  desk: PracticePart,
  words: string,
  work: (onProgress: (progress: Progress) => void) => Promise<Result<unknown>>,
): Promise<void> {
  wait(desk, words)
  const { store } = desk.practice
  const onProgress = (progress: Progress): void => store.setState({ waiting: { words, progress } })
  try {
    const done = await work(onProgress)
    stop(desk, done.ok ? [] : done.faults)
  } catch (reason) {
    if (isAbort(reason)) return
    stop(desk, [stopped(reason)])
  }
}

const wait = (desk: PracticePart, words: string): void =>
  desk.practice.store.setState({ waiting: { words, progress: undefined }, faults: [] })

const stop = (desk: PracticePart, faults: readonly Fault[], more: Partial<PracticeState> = {}): void =>
  desk.practice.store.setState({ waiting: undefined, faults, ...more })

const tooMuch: Fault = {
  path: 'practice',
  found: say('{MOSTACTIONS} things done to one card', { MOSTACTIONS: MOST_ACTIONS - 1 }),
  expected: say('a decision'),
  todo: say('Hand it back.'),
}

const stopped = (reason: unknown): Fault => ({
  path: 'practice',
  found: reason instanceof Error ? reason.message : String(reason),
  expected: say('an answer'),
  todo: say('Open the page again; the card is kept as it was last.'),
})
