/** Reasons of a part in a row, each number of which says how it was worked out. */
import { Fragment } from 'react'
import { paragraph } from '../stores/words.ts'
import type { PartSuspicion } from '../../suspects/index.ts'
import type { Figure } from './figure.ts'
import { FiguredText } from './Figured.tsx'

interface ReasonsProps {
  readonly of: Pick<PartSuspicion, 'ref' | 'whyReached'>
  readonly sentences: readonly string[]
}

export const Reasons = ({ of, sentences }: ReasonsProps) =>
  sentences.map((sentence, i) => (
    <Fragment key={sentence}>
      {i > 0 && ' '}
      <FiguredText words={paragraph([sentence])} of={(number) => figureInReason(of, sentence, number)} />
    </Fragment>
  ))

/** By what the sentence speaks of: how likely a spill got there, what lifting and leaving costs, else the part's own chance. */
function figureInReason({ ref, whyReached }: ReasonsProps['of'], sentence: string, number: string): Figure {
  if (whyReached.includes(sentence)) return { kind: 'reach', of: ref }
  return number.endsWith('%') ? { kind: 'part-chance', ref } : { kind: 'part-cost', ref }
}
