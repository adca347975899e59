/** What the proof station holds and still lacks. */
import { counted } from '../../../base/index.ts'
import type { Case, Proof } from '../../../case/index.ts'
import type { Held } from '../entry.ts'

/** @param proof left out while nothing is worked out: only whether there are runs is told */
export function proofState({ reports }: Pick<Case, 'reports'>, proof?: Proof): Held {
  const retests = reports.filter(({ run }) => run === 'retest').length
  if (retests === 0) return { state: 'empty', words: 'not tested again yet', lacks: undefined }
  if (proof === undefined || !proof.tested)
    return {
      state: 'partly',
      words: `${counted(retests, 'run')} after the work`,
      lacks: 'none of them read',
    }
  const lacks = lackOf(proof)
  return { state: lacks === undefined ? 'done' : 'partly', words: heldWords(proof), lacks }
}

function heldWords({ fresh, still, notTold, untested, lanes, passes }: Proof): string {
  const failing = fresh.length + still.length + notTold.length
  if (failing === 0 && untested.length === lanes.length) return 'nothing tested again yet'
  if (failing > 0) return `${counted(failing, 'lane')} ${failing === 1 ? 'fails' : 'fail'} after the work`
  return passes.clean === 0 ? 'no error seen' : `${counted(passes.clean, 'pass', 'passes')} without an error`
}

function lackOf({ fresh, still, notTold, untested, passes }: Proof): string | undefined {
  if (fresh.length > 0) return fresh.length === 1 ? 'one of them is new' : `${fresh.length} of them are new`
  if (still.length + notTold.length > 0) return 'errors remain'
  if (untested.length > 0) return `${counted(untested.length, 'lane')} not tested again`
  return passes.clean === 0 ? 'note how many passes' : undefined
}
