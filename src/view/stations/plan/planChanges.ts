/** What has changed from one plan on the screen to the next, in words. */
import { minutesWords } from '../../stores/words.ts'
import { joined, say } from '../../../base/index.ts'
import { changesBetween, type PassLog, type PlanAnswer } from '../../../plan/index.ts'

export interface Shown {
  readonly answer: PlanAnswer
  readonly lift: readonly string[]
  readonly passes: PassLog
}

/** @returns at least one sentence, also where all stays as it was */
export function changesSaid(before: Shown, after: Shown): string[] {
  if (after.passes.length < before.passes.length) return [say('Taken back: the plan stands as before that entry.')]
  const noted = after.passes.slice(before.passes.length)
  const fresh = after.lift.filter((ref) => !before.lift.includes(ref))
  const gone = before.lift.filter((ref) => !after.lift.includes(ref))
  const sums = sumChanges(before.answer, after.answer)
  const said = [
    ...(fresh.length > 0 ? [say('Now on the lift list too: {fresh}.', { fresh: joined(fresh) })] : []),
    ...(gone.length > 0 ? [say('No longer on the lift list: {gone}.', { gone: joined(gone) })] : []),
    ...changesBetween(before.answer, after.answer, noted),
  ]
  const rest = said.length === 0 ? [say('The order of what is left stays as it was.')] : said
  return [...rest, ...sums]
}

const LEAST_MONEY = 1

function sumChanges({ best: was, worth: worthWas }: PlanAnswer, { best: now, worth: worthNow }: PlanAnswer): string[] {
  const sentences: string[] = []
  if (Math.round(was.minutes) !== Math.round(now.minutes))
    sentences.push(
      say('Work left: {minutes}, before {minutes2}.', {
        minutes: minutesWords(now.minutes),
        minutes2: minutesWords(was.minutes),
      }),
    )
  const change = worthNow.expectedGain - worthWas.expectedGain
  if (Math.abs(change) >= LEAST_MONEY)
    sentences.push(
      say('Going on is expected to bring {expectedGain}, before {expectedGain2}.', {
        expectedGain: Math.round(worthNow.expectedGain),
        expectedGain2: Math.round(worthWas.expectedGain),
      }),
    )
  return sentences
}
