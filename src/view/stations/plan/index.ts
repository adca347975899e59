/** The station of the rework: which part comes off when, with which heat, at what cost. */
import { say } from '../../../base/index.ts'
import { later } from '../../controls/later.tsx'
import type { Held, Known, StationEntry } from '../entry.ts'
import { planSummary } from './planWords.ts'

export const plan: StationEntry = {
  name: say('Plan'),
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
  const noted =
    present.passes.length === 0
      ? undefined
      : say('{length, plural, one {# pass} other {# passes}} noted', { length: present.passes.length })
  if (answered.state === 'working') return { state: 'partly', words: say('working it out'), lacks: undefined }
  if (answered.state === 'failed')
    return { state: 'partly', words: say('could not be planned'), lacks: say('look why') }
  if (answered.answer !== undefined)
    return { state: 'done', words: joinedWith(planSummary(answered.answer), noted), lacks: undefined }
  const lift = results.assessment?.suspects.lift
  if (tally === undefined || lift === undefined)
    return { state: 'empty', words: say('nothing yet'), lacks: say('lacks a lift list') }
  if (lift.length === 0) return { state: 'empty', words: say('nothing to lift'), lacks: undefined }
  return {
    state: 'empty',
    words: say('{length, plural, one {# part} other {# parts}} to plan', { length: lift.length }),
    lacks: noted,
  }
}

const joinedWith = (words: string, more: string | undefined): string =>
  more === undefined ? words : `${words}, ${more}`
