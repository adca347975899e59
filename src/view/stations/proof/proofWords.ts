/** The proof in the words and kinds of the screen. */
import { numberWords, say } from '../../../base/index.ts'
import type { LaneProof, LaneVerdict, Proof } from '../../../case/index.ts'
import { type ProofKind, proofKinds, type ProofLanes } from '../../sheet/index.ts'

/** What the sheet draws: all lanes but those that pass and passed before. */
export const proofLanesOf = ({ lanes }: Proof): ProofLanes =>
  new Map(lanes.flatMap(({ id, verdict }) => (isDrawn(verdict) ? [[id, verdict] as const] : [])))

const isDrawn = (verdict: LaneVerdict): verdict is ProofKind => proofKinds.some((kind) => kind === verdict)

export const verdictWords: Readonly<Record<LaneVerdict, string>> = {
  fresh: say('new'),
  still: say('still fails'),
  'not-told': say('not told'),
  untested: say('not tested again'),
  gone: say('gone'),
  clean: say('clean'),
}

/** One state of a lane in a table of errors before and after. */
export function stateWords(state: LaneProof['before'], errors: number): string {
  if (state === 'fail') return errors === 0 ? say('fails') : numberWords(errors)
  return state === 'pass' ? say('clean') : say('untested')
}

/** Bits of a lane by what became of them, or the trend of its errors; empty where nothing more is known. */
export function moreWords({ bits, trend, verdict, before }: LaneProof): string {
  const named = (list: readonly number[], what: 'fresh' | 'still' | 'gone'): string[] =>
    list.length === 0
      ? []
      : [
          say(
            '{length, plural, one {bit {bits}} other {bits {bits}}} {what, select, fresh {new} still {still} other {gone}}',
            { length: list.length, bits: list.join(', '), what },
          ),
        ]
  const words = [
    ...(trend === undefined ? [] : [trend === 'same' ? say('as many errors') : say('{trend} errors', { trend })]),
    ...(verdict === 'fresh' && before === 'untested' ? [say('was untested before')] : []),
    ...named(bits.fresh, 'fresh'),
    ...named(bits.still, 'still'),
    ...(verdict === 'gone' ? [] : named(bits.gone, 'gone')),
  ]
  return words.join('; ')
}
