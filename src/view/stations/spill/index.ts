/** The station of what was spilled: where, what and how much, and which way was down. */
import { say, smallName } from '../../../base/index.ts'
import type { Case } from '../../../case/index.ts'
import { substanceOf } from '../../../spill/index.ts'
import { later } from '../../controls/later.tsx'
import { amountWords } from '../../stores/words.ts'
import { boardOverlays } from '../boardOverlays.ts'
import type { Held, StationEntry } from '../entry.ts'

export const spill: StationEntry = {
  name: say('Spill'),
  key: '6',
  Form: later(async () => (await import('./Spill.tsx')).Spill),
  state: ({ present }) => filledIn(present),
  overlays: boardOverlays,
  showsLiftList: true,
}

function filledIn(present: Case): Held {
  const spills = present.marks.filter((mark) => mark.kind === 'spill')
  const first = spills[0]
  if (first === undefined) {
    const expected = present.arrival.accident === 'spill' || present.arrival.accident === 'flux'
    return { state: 'empty', words: say('none marked'), lacks: expected ? say('lacks its place') : undefined }
  }
  const name = shortName(substanceOf(first.substance, present.substances)?.name ?? first.substance)
  return {
    state: 'done',
    words:
      spills.length === 1
        ? `${name}, ${amountWords(first.amount)}`
        : say('{length, plural, one {# spill} other {# spills}}', { length: spills.length }),
    lacks: undefined,
  }
}

const shortName = (name: string): string => smallName(name.split(',')[0] ?? name)
