/** `liftmap proof CASE`: what the runs after the work say beside the first, and how much their passes show. */
import { say } from '../../base/index.ts'
import type { z } from 'zod'
import {
  boundSentence,
  cautionsOfCase,
  type LaneProof,
  measuredBeforeAfter,
  notProven,
  type OpenedCase,
  type Proof,
  proofOf,
} from '../../case/index.ts'
import { lineWords, type Measurement } from '../../measure/index.ts'
import { EXIT, printAnswer, whenGood } from '../answer.ts'
import { openCaseFile } from '../files.ts'
import type { Io } from '../io.ts'
import { proofOutput } from '../output.ts'

type ProofAnswer = z.infer<typeof proofOutput>

/**
 * Prints lanes, passes and bounds of what is proved; also for a case that was never tested again. Returns the exit
 * code.
 */
export async function runProof(io: Io, file: string, options: { text?: boolean | undefined }): Promise<number> {
  return await whenGood(io, await openCaseFile(io, file), (opened) => {
    printAnswer(io, proofOutput, answerOf(opened), options.text === true ? sayProof : undefined)
    return EXIT.fine
  })
}

function answerOf(opened: OpenedCase): ProofAnswer {
  const { caseFile, model } = opened
  const proof = proofOf(opened)
  return {
    passes: proof.passes.clean,
    failingPasses: proof.passes.failing,
    boundPerPass95: proof.boundPerPass95 ?? null,
    ruleOfThree95: proof.ruleOfThree95 ?? null,
    bound: boundSentence(proof),
    gone: [...proof.gone],
    fresh: [...proof.fresh],
    still: [...proof.still],
    untested: [...proof.untested],
    notTold: [...proof.notTold],
    lanes: proof.lanes.map(laneOf),
    parts: partsOf(proof),
    runs: proof.passes.runs.map(({ name, passes, kind, untestedLanes }) => ({
      name,
      passes: passes ?? null,
      kind,
      untestedLanes,
    })),
    measured: measuredBeforeAfter(model, caseFile.measurements).map(({ line, quantity, before, after }) => ({
      line: line.name,
      kind: line.kind,
      ...(line.point === undefined ? {} : { point: line.point }),
      quantity,
      before: readingOf(before),
      after: readingOf(after),
    })),
    notProven: notProven(proof),
    note: caseFile.proofNote,
    cautions: cautionsOfCase(caseFile, ['proof']),
  }
}

function laneOf({ id, part, channel, verdict, before, after, errorsBefore, errorsAfter, trend, bits }: LaneProof) {
  const { gone, fresh, still } = bits
  return {
    id,
    part,
    channel,
    verdict,
    before,
    after,
    errorsBefore,
    errorsAfter,
    trend: trend ?? null,
    bits: { gone: [...gone], fresh: [...fresh], still: [...still] },
  }
}

const partsOf = ({ parts }: Proof): ProofAnswer['parts'] =>
  parts.map(({ ref, verdict, errorsBefore, errorsAfter, signatureBefore, signatureAfter }) => ({
    ref,
    verdict,
    errorsBefore,
    errorsAfter,
    signatureBefore: signatureBefore?.kind ?? null,
    signatureAfter: signatureAfter?.kind ?? null,
  }))

function readingOf(measurement: Measurement | undefined): number | 'open' | 'short' | null {
  if (measurement === undefined) return null
  return measurement.reading.kind === 'value' ? measurement.reading.value : measurement.reading.kind
}

function sayProof(answer: ProofAnswer): string {
  const list = (lanes: readonly string[]): string => (lanes.length === 0 ? say('none') : lanes.join(', '))
  const lines = [
    say('Gone: {gone}', { gone: list(answer.gone) }),
    say('New: {fresh}', { fresh: list(answer.fresh) }),
    say('Still there: {still}', { still: list(answer.still) }),
    say('Not tested again: {untested}', {
      untested: answer.untested.length === answer.lanes.length ? say('all lanes') : list(answer.untested),
    }),
    ...(answer.notTold.length === 0
      ? []
      : [say('Errors beside, lane unknown: {notTold}', { notTold: list(answer.notTold) })]),
    say('Part: errors before, after'),
    ...answer.parts
      .filter(({ verdict }) => verdict !== 'clean')
      .map(({ ref, verdict, errorsBefore, errorsAfter }) =>
        say(
          '  {ref}  {errorsBefore}, {errorsAfter}  {verdict, select, fresh {fresh} still {still} untested {untested} gone {gone} clean {clean} other {not-told}}',
          { ref, errorsBefore, errorsAfter, verdict },
        ),
      ),
    answer.bound,
    ...answer.notProven.map((sentence) => `  ${sentence}`),
    ...answer.measured.map(({ line, kind, point, quantity, before, after }) =>
      say('{lineWords}, {quantity, select, ohms {ohms} diode {diode} other {volts}}: before {before}, after {after}', {
        lineWords: lineWords({ kind, name: line, point }),
        quantity,
        before: before ?? '–',
        after: after ?? '–',
      }),
    ),
    ...(answer.note === '' ? [] : [say('Note: {note}', { note: answer.note })]),
  ]
  return [...lines, ...answer.cautions.map((caution) => say('Caution: {caution}', { caution }))].join('\n')
}
