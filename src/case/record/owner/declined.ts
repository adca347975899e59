/** Of the owner's record where the work was declined, in plain words: what it would have cost, and how the card goes back. */
import { money, sentenceCase, say } from '../../../base/index.ts'
import { uncleaned } from '../../doubts-of-repair.ts'
import { powerOf, usualPhase } from '../../power.ts'
import { standingAfter } from '../../runs.ts'
import { chanceWord } from '../words.ts'
import { paragraph, section } from '../blocks.ts'
import type { RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { cleanedWords, partsWords } from './did.ts'
import { plainCount } from './found.ts'

/** The range that was told, and how likely the work would have helped. */
export function wouldCostSection({ caseFile: { quote, handBack } }: RecordInput): RecordSection {
  if (quote === undefined) return section(say('What it would have cost'), paragraph(say('We told you no price.')))
  const { low, high, works } = quote
  const price = say('Mending it would have cost about {low} to {high}.', {
    low: money(low, handBack.currency),
    high: money(high, handBack.currency),
  })
  const chance = works === undefined ? '' : say(' That it works after that is {works}.', { works: chanceWord(works) })
  return section(say('What it would have cost'), paragraph(`${price}${chance}`))
}

/** What is on the card and what is not, what lies on it still, and whether it may be switched on. */
export function goesBackSection(input: RecordInput): RecordSection {
  return section(
    say('How your card goes back'),
    ...(touched(input) ? partsWords(input) : [paragraph(say('No part was taken off or changed.'))]),
    ...offWords(input),
    ...cleanedWords(input),
    ...(uncleaned(input.caseFile).length > 0 ? [paragraph(say('What got onto it is still there.'))] : []),
    paragraph(powerWords(input)),
  )
}

const touched = ({ caseFile: { passes } }: RecordInput): boolean => passes.some(({ outcome }) => outcome === 'done')

function offWords({ caseFile: { passes } }: RecordInput) {
  const off = standingAfter(passes).off.size
  if (off === 0) return []
  return [
    paragraph(
      off === 1
        ? say('One part is off the board and in the bag.')
        : say('{off} parts are off the board and in the bag.', { off: sentenceCase(plainCount(off)) }),
    ),
  ]
}

/** Nobody mended it: whatever was measured, the fault is there. */
function powerWords({ caseFile, model }: RecordInput): string {
  const { verdict } = powerOf(model, caseFile, usualPhase(caseFile))
  switch (verdict) {
    case 'not-safe':
      return say('It is not safe to switch on: what we measured speaks against it.')
    case 'not-known':
      return say('We can’t say that it is safe to switch on. So please leave it off.')
    case 'safe':
      return say(
        'What we measured does not speak against switching it on. But the fault is still there, so please leave it off.',
      )
  }
}
