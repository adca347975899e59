/** The station of the rework: which part comes off when, with which heat, at what cost. */
import { counted } from '../../../base/index.ts'
import { later } from '../../controls/later.tsx'
import type { Held, Known, StationEntry } from '../entry.ts'
import { planSummary } from './planWords.ts'

export const plan: StationEntry = {
  name: 'Plan',
  key: '8',
  Form: later(async () => (await import('./Plan.tsx')).Plan),
  state: filledIn,
  overlays: {
    id: 'plan',
    shown: {
      errorLoad: false,
      reach: false,
      field: false,
      liftOrder: false,
      labels: true,
      passes: true,
      heat: true,
    },
    without: ['liftOrder', 'proof', 'short'],
  },
  showsLiftList: false,
}

function filledIn({ present, tally, results, plan: answered }: Known): Held {
  const noted = present.passes.length === 0 ? undefined : `${counted(present.passes.length, 'pass', 'passes')} noted`
  if (answered.state === 'working') return { state: 'partly', words: 'working it out', lacks: undefined }
  if (answered.state === 'failed') return { state: 'partly', words: 'could not be planned', lacks: 'look why' }
  if (answered.answer !== undefined)
    return { state: 'done', words: joinedWith(planSummary(answered.answer), noted), lacks: undefined }
  const lift = results.assessment?.suspects.lift
  if (tally === undefined || lift === undefined)
    return { state: 'empty', words: 'nothing yet', lacks: 'lacks a lift list' }
  if (lift.length === 0) return { state: 'empty', words: 'nothing to lift', lacks: undefined }
  return { state: 'empty', words: `${counted(lift.length, 'part')} to plan`, lacks: noted }
}

const joinedWith = (words: string, more: string | undefined): string =>
  more === undefined ? words : `${words}, ${more}`
