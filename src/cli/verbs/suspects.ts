/** `liftmap suspects CASE`: stories that explain the findings, and the lift list with its reasons. */
import type { z } from 'zod'
import { cautionsOfCase } from '../../case/index.ts'
import { EXIT, percent, printAnswer, whenGood } from '../answer.ts'
import { assessCaseFile } from '../files.ts'
import type { Io } from '../io.ts'
import { suspectsOutput } from '../output.ts'

type Suspects = z.infer<typeof suspectsOutput>

export async function runSuspects(io: Io, file: string, options: { text?: boolean | undefined }): Promise<number> {
  return await whenGood(io, await assessCaseFile(io, file), ({ caseFile, assessment }) => {
    const { suspects } = assessment
    const { spill } = suspects
    const answer: Suspects = {
      stories: suspects.stories.map((story) => ({
        causes: story.causes.map(({ kind, at }) => ({ kind, at })),
        probability: story.probability,
        sentence: story.sentence,
      })),
      remainder: suspects.remainder,
      lift: [...suspects.lift],
      parts: suspects.parts.map(({ ref, probability, lift, why }) => ({ ref, probability, lift, why: [...why] })),
      spill: spill === undefined ? null : { at: { ...spill.at }, sdMm: spill.sdMm, probability: spill.probability },
      leftOut: [...suspects.leftOut],
      cautions: cautionsOfCase(caseFile, ['arrival', 'spill', 'suspects']),
    }
    printAnswer(io, suspectsOutput, answer, options.text === true ? saySuspects : undefined)
    return EXIT.fine
  })
}

function saySuspects(answer: Suspects): string {
  const lines = [answer.lift.length === 0 ? 'Lift nothing yet.' : `Lift: ${answer.lift.join(', ')}`]
  for (const part of answer.parts.filter((each) => each.lift)) {
    lines.push(`  ${part.ref}  ${percent(part.probability)}`, ...part.why.map((sentence) => `      ${sentence}`))
  }
  lines.push('Stories:')
  for (const story of answer.stories) lines.push(`  ${percent(story.probability).padStart(12)}  ${story.sentence}`)
  lines.push(`  ${percent(answer.remainder).padStart(12)}  everything else together`)
  if (answer.spill !== null) {
    const { at, sdMm } = answer.spill
    lines.push(`Where it was: ${at.x.toFixed(1)}, ${at.y.toFixed(1)} mm, give or take ${sdMm.toFixed(1)} mm`)
  }
  return [...lines, ...answer.leftOut, ...answer.cautions.map((caution) => `Caution: ${caution}`)].join('\n')
}
