/** Of the owner's record, in plain words: what happened, and what was found. */
import { dayWords, joined, say, sentenceCase, smallName, spoken } from '../../../base/index.ts'
import type { CauseKind, Story } from '../../../suspects/index.ts'
import { paragraph, quote, section } from '../blocks.ts'
import type { RecordBlock, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { lanesIn } from '../tested.ts'
import { substanceName } from '../technician/seen.ts'
import { hasEvidence } from '../technician/judged.ts'
import { chanceWord } from '../words.ts'

const accidents: Readonly<Record<RecordInput['caseFile']['arrival']['accident'], string>> = {
  spill: say('Something got onto the card.'),
  flux: say('Flux, a paste that is used for soldering, was left on the card.'),
  slip: say('A tool slipped on the card.'),
  none: say('There was no accident that you know of.'),
  unknown: say('What happened to the card is not known.'),
}

/** The day it came, the kind of accident, and the owner's own account in quotes. */
export function happenedSection({ caseFile }: RecordInput): RecordSection {
  const { arrival } = caseFile
  const came =
    arrival.on === undefined ? [] : [paragraph(say('Your card came to us on {on}.', { on: dayWords(arrival.on) }))]
  return section(
    say('What happened'),
    ...came,
    paragraph(accidentWords(caseFile)),
    ...quote(say('What you told us'), arrival.account),
  )
}

/** What got onto the card by its name, where it is marked: a liquid ran there, metal was pressed there. */
function accidentWords(caseFile: RecordInput['caseFile']): string {
  const { accident } = caseFile.arrival
  const names = accident === 'spill' ? spilledNames(caseFile) : []
  return names.length === 0
    ? accidents[accident]
    : say('{names} got onto the card.', { names: sentenceCase(joined(names)) })
}

/** What the test says, which story is likeliest, and what was seen on the board. */
export function foundSection(input: RecordInput): RecordSection {
  return section(say('What we found'), paragraph(testWords(input)), ...storyWords(input), ...seenWords(input))
}

const SMALL = 'no one two three four five six seven eight nine ten eleven twelve'.split(' ')

/** `no`, `one`, `two` … `twelve`, then figures: as plain English writes small numbers; others bend such words, so figures. */
export const plainCount = (n: number): string => (spoken() === 'en' ? SMALL[n] : undefined) ?? String(n)

/** `one part`, `two parts`. */
export const partsCount = (n: number): string => (n === 1 ? say('one part') : say('{n} parts', { n: plainCount(n) }))

/** Memory parts with an error in the run. */
export const failingChips = ({ model }: RecordInput, tally: RecordInput['tally']): string[] => [
  ...new Set(lanesIn(tally, 'fail').flatMap((id) => model.laneById.get(id)?.part ?? [])),
]

function testWords(input: RecordInput): string {
  const { tally, model } = input
  const explained = say('A memory test writes to the card’s memory and reads it back.')
  if (tally === undefined) return say('We did not run a memory test when the card came in.')
  const failing = failingChips(input, tally).length
  const all = model.memories.length
  if (failing === 0) return say('{explained} When the card came in, the test found no errors.', { explained })
  return say('{explained} When the card came in, the test found errors in {failing} of its {all} memory chips.', {
    explained,
    failing: plainCount(failing),
    all: plainCount(all),
  })
}

const causeWords: Readonly<Record<CauseKind, (spilled: string) => string>> = {
  die: () => say('a memory chip is broken inside'),
  joints: () => say('the solder under a memory chip no longer holds'),
  'command-joints': () => say('the solder under a memory chip no longer holds'),
  corridor: () => say('fine wires in the board are damaged'),
  rail: () => say('the board does not get its power as it should'),
  'rail-branch': () => say('a part of the board does not get its power as it should'),
  'power-stage': () => say('one of the parts that make the power on the board is broken'),
  core: () => say('the main chip is broken'),
  'core-patch': () => say('some of the solder under the main chip no longer holds'),
  spill: (spilled) => say('{spilled} got under parts of the card, where nobody can see it', { spilled }),
  'unreported-spill': () => say('something got under parts of the card, where nobody can see it'),
  slip: () => say('the tool that slipped damaged the board'),
}

/** One story, and how likely it is; nothing where there is nothing to judge by, or where no story stands out. */
function storyWords(input: RecordInput): RecordBlock[] {
  const best = input.assessment?.suspects.stories[0]
  if (best === undefined || best.causes.length === 0 || !hasEvidence(input)) return []
  const spilled = joined(spilledNames(input.caseFile)) || say('what was spilled')
  const chance = chanceOf(best, input.assessment?.suspects.stories ?? [])
  const [first = '', ...others] = new Set(best.causes.map(({ kind }) => causeWords[kind](spilled)))
  const also = others.map((cause) => say(' And {cause}.', { cause })).join('')
  return [
    paragraph(
      say('The best explanation: {first}.{also} That is {chance}. It is not certain.', {
        first,
        also,
        chance: chanceWord(chance),
      }),
    ),
  ]
}

/** Stories of the same kinds of cause are one to an owner: their chances add up. */
function chanceOf(best: Story, stories: readonly Story[]): number {
  const kinds = ({ causes }: Story): string => [...new Set(causes.map(({ kind }) => kind))].toSorted().join()
  return stories.reduce((sum, story) => sum + (kinds(story) === kinds(best) ? story.probability : 0), 0)
}

/** `coolant`, `a gallium-indium mix`: the name up to its first comma. */
function spilledNames(caseFile: RecordInput['caseFile']): string[] {
  const names = caseFile.marks.flatMap((mark) =>
    mark.kind === 'spill' ? [smallName(substanceName(mark.substance, caseFile).split(',')[0] ?? '')] : [],
  )
  return [...new Set(names)]
}

function seenWords({ caseFile: { marks, passes } }: RecordInput): RecordBlock[] {
  const dirty = marks.filter(({ kind }) => kind === 'residue' || kind === 'film' || kind === 'corrosion').length
  const seen = passes.flatMap(({ found }) => found)
  const under = (wanted: (typeof seen)[number]['what'][number], words: string): string[] => {
    const parts = new Set(seen.flatMap(({ ref, what }) => (what.includes(wanted) ? [ref] : []))).size
    return parts === 0 ? [] : [say('Under {parts} that we took off, {words}.', { parts: partsCount(parts), words })]
  }
  const words = [
    ...(dirty > 0
      ? [
          dirty === 1
            ? say('We saw stains or corrosion on the board in one place.')
            : say('We saw stains or corrosion on the board in {dirty} places.', { dirty: plainCount(dirty) }),
        ]
      : []),
    ...under('wet', say('it was still wet')),
    ...under('metal', say('there was metal that conducts')),
    ...under('corroded', say('the contacts were corroded')),
    ...under('torn-pad', say('a contact was torn off the board')),
  ]
  return words.length === 0 ? [] : [paragraph(words.join(' '))]
}
