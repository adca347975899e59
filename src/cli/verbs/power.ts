/** `liftmap power CASE`: whether anything measured or seen speaks against power, line by line. Never that power is harmless. */
import { say } from '../../base/index.ts'
import type { z } from 'zod'
import { cautionsOfCase, type OpenedCase, powerOf, usualPhase } from '../../case/index.ts'
import {
  type BringUp,
  bringUpOf,
  lineVerdicts,
  lineWords,
  type PowerJudgement,
  sayReading,
} from '../../measure/index.ts'
import { EXIT, printAnswer, whenGood } from '../answer.ts'
import { openCaseFile } from '../files.ts'
import type { Io } from '../io.ts'
import { powerOutput } from '../output.ts'

type PowerAnswer = z.infer<typeof powerOutput>

/**
 * Prints the judgement with its reasons and every line. The exit code says that the case could be read, not that
 * power is safe.
 */
export async function runPower(io: Io, file: string, options: { text?: boolean | undefined }): Promise<number> {
  return await whenGood(io, await openCaseFile(io, file), (opened) => {
    printAnswer(io, powerOutput, answerOf(opened), options.text === true ? sayPower : undefined)
    return EXIT.fine
  })
}

const VERDICTS: Readonly<Record<PowerJudgement['verdict'], PowerAnswer['verdict']>> = {
  'not-safe': 'no',
  'not-known': 'unknown',
  safe: 'nothing-against',
}

function answerOf({ caseFile, model }: OpenedCase): PowerAnswer {
  const phase = usualPhase(caseFile)
  const { verdict, words, reasons } = powerOf(model, caseFile, phase)
  const ohms = lineVerdicts(model, caseFile, 'ohms', phase)
  const found = bringUpOf(model, lineVerdicts(model, caseFile, 'volts', phase))
  const diode = lineVerdicts(model, caseFile, 'diode', phase).filter(({ measurement }) => measurement !== undefined)
  return {
    verdict: VERDICTS[verdict],
    words,
    phase,
    reasons: reasons.map(({ sentence }) => sentence),
    lines: [...ohms, ...diode].map(({ line, measurement, verdict: { word, sentence } }) => ({
      line: line.line.name,
      kind: line.line.kind,
      ...(line.line.point === undefined ? {} : { point: line.line.point }),
      reading: measurement === undefined ? null : sayReading(measurement.reading, line.quantity),
      verdict: word,
      why: sentence,
      ...(line.quantity === 'ohms' ? {} : { quantity: line.quantity }),
    })),
    ...(found === undefined ? {} : { underPower: underPowerOf(found) }),
    cautions: cautionsOfCase(caseFile, ['cold-measuring']),
  }
}

const underPowerOf = ({ order, first, sentence }: BringUp): NonNullable<PowerAnswer['underPower']> => ({
  order: order.map(({ rail, state }) => ({ rail, state })),
  first: first?.rail ?? null,
  sentence,
})

function sayPower({ words, reasons, lines, underPower, cautions }: PowerAnswer): string {
  return [
    `${words}.`,
    ...reasons.map((reason) => `  ${reason}`),
    ...lines.flatMap(({ line, kind, point, reading, verdict, why }) =>
      reading === null ? [] : [`${lineWords({ kind, name: line, point })}: ${reading}, ${verdict}. ${why}`],
    ),
    ...(underPower === undefined ? [] : [say('Under power: {sentence}', { sentence: underPower.sentence })]),
    ...cautions.map((caution) => say('Caution: {caution}', { caution })),
  ].join('\n')
}
