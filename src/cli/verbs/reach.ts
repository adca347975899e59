/** `liftmap reach CASE`: how far each reported spill got, and which parts it reached. */
import { percent, say } from '../../base/index.ts'
import type { z } from 'zod'
import { EXIT, printAnswer, whenGood } from '../answer.ts'
import { assessCaseFile } from '../files.ts'
import type { Io } from '../io.ts'
import { reachOutput } from '../output.ts'

type Reach = z.infer<typeof reachOutput>

/**
 * Prints each reported spill in mm and mm², its parts the likeliest first; radius and area on top are those of the
 * first spill. Returns the exit code.
 */
export async function runReach(io: Io, file: string, options: { text?: boolean | undefined }): Promise<number> {
  return await whenGood(io, await assessCaseFile(io, file), ({ assessment }) => {
    const spills = assessment.reaches.map(({ mark, reach }) => ({
      mark,
      radiusMm: reach.radiusMm,
      areaMm2: reach.areaMm2,
      extent: reach.extent,
      parts: mostLikelyFirst(reach.parts),
      notes: [...reach.notes],
    }))
    const answer = {
      spills,
      radiusMm: spills[0]?.radiusMm ?? 0,
      areaMm2: spills[0]?.areaMm2 ?? 0,
      parts: highestPerPart(spills.flatMap((spill) => spill.parts)),
    }
    printAnswer(io, reachOutput, answer, options.text === true ? sayReach : undefined)
    return EXIT.fine
  })
}

const mostLikelyFirst = (
  parts: readonly { ref: string; probability: number }[],
): { ref: string; probability: number }[] =>
  parts
    .filter((part) => part.probability > 0)
    .map(({ ref, probability }) => ({ ref, probability }))
    .toSorted((a, b) => b.probability - a.probability)

function highestPerPart(parts: readonly { ref: string; probability: number }[]): Reach['parts'] {
  const highest = new Map<string, number>()
  for (const { ref, probability } of parts) highest.set(ref, Math.max(probability, highest.get(ref) ?? 0))
  return mostLikelyFirst([...highest].map(([ref, probability]) => ({ ref, probability })))
}

function sayReach(answer: Reach): string {
  if (answer.spills.length === 0) return say('No spill is marked in this case.')
  return answer.spills
    .flatMap((spill) => [
      `${spill.mark}: ${spill.extent}`,
      ...spill.parts.map(({ ref, probability }) => `  ${ref}  ${percent(probability)}`),
      ...spill.notes.map((note) => `  ${note}`),
    ])
    .join('\n')
}
