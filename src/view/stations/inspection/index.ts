/** The station where the board is looked at: photos under the drawing, what is seen, and where there is nothing. */
import { say } from '../../../base/index.ts'
import { type Case, markKindWords } from '../../../case/index.ts'
import { later } from '../../controls/later.tsx'
import { boardOverlays } from '../boardOverlays.ts'
import type { Held, StationEntry } from '../entry.ts'

export const inspection: StationEntry = {
  name: say('Inspection'),
  key: '5',
  Form: later(async () => (await import('./Inspection.tsx')).Inspection),
  state: ({ present }) => filledIn(present),
  overlays: boardOverlays,
  showsLiftList: true,
}

function filledIn({ marks, photos: all }: Case): Held {
  // those of the intake show the card as it was handed in, and need no match
  const photos = all.filter(({ atIntake }) => atIntake !== true)
  const kinds = ['residue', 'film', 'corrosion', 'clean', 'slip'] as const
  const seen = kinds.flatMap((kind) => {
    const n = marks.filter((mark) => mark.kind === kind).length
    return n === 0 ? [] : [`${n} ${markKindWords[kind]}`]
  })
  const held = [
    ...seen,
    ...(photos.length === 0
      ? []
      : [say('{length, plural, one {# photo} other {# photos}}', { length: photos.length })]),
  ]
  if (seen.length === 0) {
    const words = held.length === 0 ? say('nothing marked yet') : held.join(', ')
    return {
      state: held.length === 0 ? 'empty' : 'partly',
      words,
      lacks: say('mark what you see, clean spots too'),
    }
  }
  const loose = photos.filter((photo) => photo.corners === undefined).length
  const lacks = loose === 0 ? undefined : say('{loose, plural, one {# photo} other {# photos}} not matched', { loose })
  return { state: loose === 0 ? 'done' : 'partly', words: held.join(', '), lacks }
}
