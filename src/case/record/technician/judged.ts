/** Of the technician's record: reach, stories, the lift list with its reasons, checks that were done, what was left out. */
import { joined, numberWords, percent, say } from '../../../base/index.ts'
import { list, paragraph, section, table } from '../blocks.ts'
import type { RecordBlock, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { instantWords } from '../words.ts'
import { knownWord } from '../known-words.ts'

const STORIES_TOLD = 8
const PARTS_REACHED = 12

/** At most 8 stories, the lift list with its reasons, the parts that were reached, and what the checks said. */
export function judgedSection(input: RecordInput): RecordSection {
  return section(
    say('Judged'),
    ...storyBlocks(input),
    ...liftBlocks(input),
    ...reachBlocks(input),
    ...checkBlocks(input),
  )
}

/** That there is something to judge by, beyond what is assumed of any card. */
export const hasEvidence = ({ tally, caseFile: { measurements, checks, powered } }: RecordInput): boolean =>
  tally !== undefined || measurements.length > 0 || checks.length > 0 || powered.enumerates === 'no'

function storyBlocks(input: RecordInput): RecordBlock[] {
  const suspects = input.assessment?.suspects
  if (suspects === undefined) return [paragraph(say('The suspects were not worked out.'))]
  if (!hasEvidence(input))
    return [paragraph(say('Neither a memory run nor a reading nor a check: nothing to judge by yet.'))]
  const told = suspects.stories.slice(0, STORIES_TOLD)
  const rest =
    suspects.remainder + suspects.stories.slice(STORIES_TOLD).reduce((sum, { probability }) => sum + probability, 0)
  return [
    paragraph(
      say(
        'What the model makes of the findings. The chances rest on its assumptions about such cards; they are not certainties.',
      ),
    ),
    table(
      say('Stories, likeliest first'),
      [say('Chance#'), say('Story')],
      [
        ...told.map(({ probability, sentence }) => [percent(probability), sentence]),
        [percent(rest), say('everything else')],
      ],
    ),
    ...list(suspects.leftOut),
    ...spillPlace(input),
  ]
}

function spillPlace({ assessment }: RecordInput): RecordBlock[] {
  const spill = assessment?.suspects.spill
  if (spill === undefined) return []
  return [
    paragraph(
      say(
        'Where the spill was, as far as the findings tell: x {x}, y {y} mm on the {side, select, top {top} other {bottom}} side, give or take {sdMm} mm; chance of a spill {probability}.',
        {
          x: numberWords(Number(spill.at.x.toFixed(1))),
          y: numberWords(Number(spill.at.y.toFixed(1))),
          side: spill.side,
          sdMm: numberWords(Number(spill.sdMm.toFixed(1))),
          probability: percent(spill.probability),
        },
      ),
    ),
  ]
}

function liftBlocks(input: RecordInput): RecordBlock[] {
  const suspects = input.assessment?.suspects
  if (suspects === undefined || !hasEvidence(input)) return []
  if (suspects.lift.length === 0)
    return [paragraph(say('The lift list is empty: lifting any part costs more than it saves.'))]
  const rows = suspects.lift.map((ref, i) => {
    const part = suspects.parts.find((each) => each.ref === ref)
    return [`${i + 1}.\u00a0${ref}`, part === undefined ? '' : percent(part.probability), part?.why.join(' ') ?? '']
  })
  return [table(say('Lift list'), [say('Part'), say('Needs lifting#'), say('Why')], rows)]
}

function reachBlocks({ assessment, caseFile }: RecordInput): RecordBlock[] {
  return (assessment?.reaches ?? []).flatMap(({ mark, reach }) => {
    const spills = caseFile.marks.filter(({ kind }) => kind === 'spill')
    const name =
      spills.length > 1
        ? say('Spill {number}', { number: spills.findIndex(({ id }) => id === mark) + 1 })
        : say('The spill')
    const parts = reach.parts.slice(0, PARTS_REACHED).map(({ ref, probability }) => `${ref} ${percent(probability)}`)
    return [
      paragraph(
        `${name}: ${reach.extent} ${parts.length === 0 ? say('No part was reached.') : say('Chance that it got to {parts}.', { parts: joined(parts) })}`,
      ),
      ...list(reach.notes),
    ]
  })
}

function checkBlocks({ caseFile: { checks } }: RecordInput): RecordBlock[] {
  if (checks.length === 0) return [paragraph(say('No further check is on the record.'))]
  const rows = checks.map(({ check, at, found, note, on }) => [
    say('{check} at {at}', { check: knownWord(check.replaceAll('-', ' ')), at }),
    found ? say('found something') : say('found nothing'),
    note ?? '',
    on === undefined ? say('not noted') : instantWords(on),
  ])
  return [table(say('Checks that were done'), [say('Check'), say('Outcome'), say('Note'), say('At')], rows)]
}
