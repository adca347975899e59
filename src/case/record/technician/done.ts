/** Of the technician's record: every logged pass, how often each part was heated, what was in the oven and on the bench. */
import { recipeWords } from '../../../heat/index.ts'
import { joined, minutesWords, money, numberWords, say } from '../../../base/index.ts'
import { type BenchTick, foundWords, outcomeWords, type PassEntry, stepTitle } from '../../../plan/index.ts'
import { wasWashed } from '../../cleaning-done.ts'
import { facts, list, paragraph, quote, section, table } from '../blocks.ts'
import type { RecordBlock, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { instantWords, leavesOf } from '../words.ts'
import { knownWord } from '../known-words.ts'

/** Passes, ticks, cleaning, heat counts, the plan and bench steps; the technician's own words first. */
export function doneSection(input: RecordInput): RecordSection {
  const { caseFile } = input
  return section(
    say('Done'),
    ...quote(say('In the technician’s words'), caseFile.handBack.done),
    ...passBlocks(caseFile.passes),
    ...tickBlocks(caseFile.ticks),
    ...cleanedBlocks(caseFile),
    ...heatBlocks(input),
    ...planBlocks(input),
    ...benchBlocks(input),
  )
}

function cleanedBlocks({ cleaned, ticks }: RecordInput['caseFile']): RecordBlock[] {
  if (cleaned === undefined)
    return wasWashed({ cleaned, ticks }) ? [] : [paragraph(say('No cleaning of the whole board was noted.'))]
  const when = cleaned.at === undefined ? '' : say(' on {at}', { at: instantWords(cleaned.at) })
  return [
    paragraph(
      say('The board was cleaned and dried{when}; it took care of {length, plural, one {# mark} other {# marks}}.', {
        when,
        length: cleaned.marks.length,
      }),
    ),
    ...quote(say('With what, and how it was dried'), cleaned.note),
  ]
}

function passBlocks(passes: readonly PassEntry[]): RecordBlock[] {
  if (passes.length === 0) return [paragraph(say('No pass was logged.'))]
  const rows = passes.map((pass, i) => [
    `${i + 1}.\u00a0${say('{action, select, lift {lift {refs}} other {refit {refs}}}', { action: pass.action, refs: joined(pass.refs) })}`,
    `${outcomeWords[pass.outcome]}${pass.action === 'refit' && pass.outcome === 'done' ? (pass.replaced ? say(', a new part') : say(', the same part')) : ''}`,
    pass.peakC === undefined ? say('not measured') : `${numberWords(pass.peakC)} °C`,
    pass.measured.map(({ ref, peakC }) => `${ref} ${numberWords(peakC)} °C`).join(', ') || say('none measured'),
    pass.found.map(({ ref, what }) => `${ref}: ${what.map((each) => foundWords[each]).join(', ')}`).join('; ') ||
      say('not noted'),
    pass.note ?? '',
  ])
  return [
    table(
      say('Passes as logged'),
      [say('Pass'), say('Outcome'), say('Peak at a joint'), say('Peaks beside it'), say('Under the part'), say('Note')],
      rows,
    ),
  ]
}

/** Washing, cleaning and the like, with the minutes that were planned for them. */
function tickBlocks(ticks: readonly BenchTick[]): RecordBlock[] {
  if (ticks.length === 0) return []
  const rows = ticks.map(({ action, refs, outcome, minutes }) => [
    stepTitle({ action, refs }),
    outcomeWords[outcome],
    outcome === 'done' ? minutesWords(minutes) : '',
  ])
  return [table(say('Bench work as ticked off'), [say('Work'), say('Outcome'), say('Planned')], rows)]
}

/** By the log alone; with a plan at hand also by its count, which knows the neighbours. */
function heatBlocks({ caseFile: { passes }, model, rework }: RecordInput): RecordBlock[] {
  const heated = new Map<string, number>()
  for (const { outcome, refs } of passes)
    if (outcome !== 'skipped') for (const ref of refs) heated.set(ref, (heated.get(ref) ?? 0) + 1)
  if (heated.size === 0) return []
  const counts = new Map(rework?.answer.best.heatCounts.map((each) => [each.ref, each]))
  const rows = [...heated].map(([ref, times]) => [
    ref,
    numberWords(times),
    beforeWords(model.partByRef.get(ref)?.description.heatCount),
    sayCount(counts.get(ref)),
  ])
  return [
    table(
      say('Heat'),
      [say('Part'), say('Passes on it#'), say('Heat count when it came#'), say('By the plan’s count now#')],
      rows,
    ),
  ]
}

const sayCount = (counts: { before: number; limit: number | undefined } | undefined): string => {
  if (counts === undefined) return say('not worked out')
  return counts.limit === undefined
    ? `${counts.before}`
    : say('{before} of {limit}', { before: counts.before, limit: counts.limit })
}

const beforeWords = (count: number | undefined): string => (count === undefined ? say('not known') : numberWords(count))

function planBlocks({ rework, caseFile: { handBack } }: RecordInput): RecordBlock[] {
  if (rework === undefined) return []
  const { best, notes } = rework.answer
  const steps = best.steps.map(({ n, action, refs, minutes, hours, setting }) => [
    `${n}. ${stepTitle({ action, refs })}`,
    hours === undefined ? minutesWords(minutes) : say('{hours} h in the oven', { hours: numberWords(hours) }),
    setting === undefined ? say('no heat') : recipeWords(setting),
  ])
  return [
    ...list(rework.changes),
    ...(steps.length === 0
      ? []
      : [table(say('The plan for what is still open'), [say('Step'), say('Time'), say('Setting')], steps)]),
    ...(steps.length === 0
      ? []
      : [
          paragraph(
            say('Planned: {minutes} and {cost}.', {
              minutes: minutesWords(best.minutes),
              cost: money(best.cost, handBack.currency),
            }),
          ),
        ]),
    ...list(notes),
    ...list(
      rework.cannot.map(({ ref, missing }) =>
        say('{ref} can’t be lifted with this equipment: {missing}.', { ref, missing: missing.join('; ') }),
      ),
    ),
  ]
}

function benchBlocks({ caseFile: { equipment, floorLife, shields, shop, handBack } }: RecordInput): RecordBlock[] {
  return [
    ...(floorLife.length === 0
      ? [paragraph(say('Floor life: no part is noted as out of its dry bag.'))]
      : [
          table(
            say('Floor life'),
            [say('Part'), say('State')],
            floorLife.map(({ ref, state }) => [ref, knownWord(state)]),
          ),
        ]),
    ...(shields.length === 0
      ? []
      : [
          table(
            say('Shields'),
            [say('While heating'), say('Covered'), say('With')],
            shields.map(({ target, ref, kind }) => [target, ref, kind === 'tape' ? say('tape') : say('a heat sink')]),
          ),
        ]),
    equipment === undefined
      ? paragraph(say('Equipment: the shipped figures of a usual bench were used.'))
      : facts(say('Equipment'), leavesOf(equipment)),
    ...(shop === undefined
      ? []
      : [
          facts(
            say(
              'Prices, minutes and limits that differ from the shipped ones ({length, plural, one {# figure} other {# figures}})',
              { length: leavesOf(shop).length },
            ),
            Object.entries(shop).flatMap(([part, figures]) =>
              leavesOf(
                { [part]: figures },
                part === 'money' || part === 'materials' ? (amount) => money(amount, handBack.currency) : undefined,
              ),
            ),
          ),
        ]),
  ]
}
