/** Changes to a pass that are tried from its heat: asked of the worker, said in words, kept where the user wants. */
import { sentenceCase, say } from '../../../base/index.ts'
import type { Case } from '../../../case/index.ts'
import { defaultEquipment, type WhatIf, type WhatIfWish } from '../../../heat/index.ts'
import { isAbort } from '../../../workers/client.ts'
import { calls } from '../../../workers/contract.ts'
import type { Desk } from '../../stores/desk.ts'
import type { TriedChange } from '../../stores/planStore.ts'
import { comparedWords } from './planWords.ts'
import { editCase } from '../../actions/edit.ts'
import { brokenFault } from './askHeat.ts'

const running = new WeakMap<Desk, AbortController>()

export async function tryWhatIf(
  desk: Desk,
  kind: WhatIf['kind'],
  target: string,
  neighbour: string | undefined,
): Promise<void> {
  const { board, history } = desk.cases.getState()
  const { look } = desk.plan.getState()
  if (board === undefined || look?.run === undefined) return
  running.get(desk)?.abort()
  const abort = new AbortController()
  running.set(desk, abort)
  const put = (tried: TriedChange | undefined): void => {
    desk.plan.setState(({ look: now }) => (now?.n === look.n ? { look: { ...now, tried } } : {}))
  }
  put({ state: 'working', words: '', said: [], shield: undefined })
  const step = desk.plan.getState().answer?.best.steps.find(({ n }) => n === look.n)
  const purpose = step?.action === 'refit' ? step.action : undefined
  const wish: WhatIfWish = {
    target,
    ...(purpose === undefined ? {} : { purpose }),
    equipment: history?.present.equipment ?? defaultEquipment,
    run: { ...look.run, frames: [] },
    kinds: [kind],
    ...(neighbour === undefined ? {} : { neighbour }),
  }
  try {
    const options = { signal: abort.signal, onProgress: () => undefined }
    const result = await desk.planner.ask(board.model, calls.whatIf, { wish }, options)
    if (abort.signal.aborted) return
    const found = result.ok ? result.value[0] : undefined
    put(found === undefined ? undefined : triedOf(found, look.run, look.refs, neighbour))
  } catch (reason) {
    if (isAbort(reason)) return put(undefined)
    const { found, todo } = brokenFault(say('the change'), reason)
    put({ state: 'done', words: say('It could not be tried'), said: [found, todo ?? ''], shield: undefined })
  }
}

function triedOf(
  { kind, title, sentence, run }: WhatIf,
  before: WhatIfWish['run'],
  refs: readonly string[],
  neighbour: string | undefined,
): TriedChange {
  const words = sentenceCase(title)
  const isShield = kind === 'tape' || kind === 'heat-sink'
  const shield = isShield && neighbour !== undefined && run !== undefined ? { ref: neighbour, kind } : undefined
  if (run === undefined)
    return { state: 'done', words, said: [say('It can’t be done: {sentence}', { sentence })], shield: undefined }
  const compared = comparedWords(before.parts, run.parts, refs, isShield ? neighbour : undefined)
  return { state: 'done', words, said: [sentence, ...compared.slice(0, SENTENCES)], shield }
}

const SENTENCES = 4

export function cancelTry(desk: Desk): void {
  running.get(desk)?.abort()
}

/** From now on the target's pass is planned with this shield. */
export const keepShield = (desk: Desk, shield: Case['shields'][number]): void =>
  editCase(desk, (c) => ({
    ...c,
    shields: [...c.shields.filter((each) => each.target !== shield.target || each.ref !== shield.ref), shield],
  }))

export const dropShield = (desk: Desk, shield: Case['shields'][number]): void =>
  editCase(desk, (c) => ({
    ...c,
    shields: c.shields.filter((each) => each.target !== shield.target || each.ref !== shield.ref),
  }))
