/** Reasons of a part in a row, each number of which says how it was worked out. */
import { Fragment } from 'react'
import { paragraph } from '../stores/words.ts'
import type { Figure } from './figure.ts'
import { FiguredText } from './Figured.tsx'

export const Reasons = ({ of, sentences }: { readonly of: string; readonly sentences: readonly string[] }) =>
  sentences.map((sentence, i) => (
    <Fragment key={sentence}>
      {i > 0 && ' '}
      <FiguredText words={paragraph([sentence])} of={(number) => figureInReason(of, sentence, number)} />
    </Fragment>
  ))

/** By what the sentence speaks of: how likely a spill got there, what lifting and leaving costs, else the part's own chance. */
function figureInReason(ref: string, sentence: string, number: string): Figure {
  if (/from its flow only|the spill reached it/.test(sentence)) return { kind: 'reach', of: ref }
  return number.endsWith('%') ? { kind: 'part-chance', ref } : { kind: 'part-cost', ref }
}
