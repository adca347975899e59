/** Of the technician's record: every logged pass, how often each part was heated, what was in the oven and on the bench. */
import { recipeWords } from '../../../heat/index.ts'
import { counted, joined, minutesWords, money, numberWords } from '../../../base/index.ts'
import { type BenchTick, type PassEntry, stepTitle } from '../../../plan/index.ts'
import { wasWashed } from '../../cleaning-done.ts'
import { facts, list, paragraph, quote, section, table } from '../blocks.ts'
import type { RecordBlock, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { instantWords, leavesOf } from '../words.ts'

/** Passes, ticks, cleaning, heat counts, the plan and bench steps; the technician's own words first. */
export function doneSection(input: RecordInput): RecordSection {
  const { caseFile } = input
  return section(
    'Done',
    ...quote('In the technician’s words', caseFile.handBack.done),
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
    return wasWashed({ cleaned, ticks }) ? [] : [paragraph('No cleaning of the whole board was noted.')]
  const when = cleaned.at === undefined ? '' : ` on ${instantWords(cleaned.at)}`
  return [
    paragraph(`The board was cleaned and dried${when}; it took care of ${counted(cleaned.marks.length, 'mark')}.`),
    ...quote('With what, and how it was dried', cleaned.note),
  ]
}

const outcomes = { done: 'done', failed: 'failed', skipped: 'skipped' } as const
const founds = { clean: 'clean', wet: 'wet', metal: 'metal', corroded: 'corroded', 'torn-pad': 'torn pad' } as const

function passBlocks(passes: readonly PassEntry[]): RecordBlock[] {
  if (passes.length === 0) return [paragraph('No pass was logged.')]
  const rows = passes.map((pass, i) => [
    `${i + 1}.\u00a0${pass.action} ${joined(pass.refs)}`,
    `${outcomes[pass.outcome]}${pass.action === 'refit' && pass.outcome === 'done' ? (pass.replaced ? ', a new part' : ', the same part') : ''}`,
    pass.peakC === undefined ? 'not measured' : `${numberWords(pass.peakC)} °C`,
    pass.measured.map(({ ref, peakC }) => `${ref} ${numberWords(peakC)} °C`).join(', ') || 'none measured',
    pass.found.map(({ ref, what }) => `${ref}: ${what.map((each) => founds[each]).join(', ')}`).join('; ') ||
      'not noted',
    pass.note ?? '',
  ])
  return [
    table(
      'Passes as logged',
      ['Pass', 'Outcome', 'Peak at a joint', 'Peaks beside it', 'Under the part', 'Note'],
      rows,
    ),
  ]
}

/** Washing, cleaning and the like, with the minutes that were planned for them. */
function tickBlocks(ticks: readonly BenchTick[]): RecordBlock[] {
  if (ticks.length === 0) return []
  const rows = ticks.map(({ action, refs, outcome, minutes }) => [
    stepTitle({ action, refs }),
    outcome,
    outcome === 'done' ? minutesWords(minutes) : '',
  ])
  return [table('Bench work as ticked off', ['Work', 'Outcome', 'Planned'], rows)]
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
  return [table('Heat', ['Part', 'Passes on it#', 'Heat count when it came#', 'By the plan’s count now#'], rows)]
}

const sayCount = (counts: { before: number; limit: number | undefined } | undefined): string => {
  if (counts === undefined) return 'not worked out'
  return counts.limit === undefined ? `${counts.before}` : `${counts.before} of ${counts.limit}`
}

const beforeWords = (count: number | undefined): string => (count === undefined ? 'not known' : numberWords(count))

function planBlocks({ rework, caseFile: { handBack } }: RecordInput): RecordBlock[] {
  if (rework === undefined) return []
  const { best, notes } = rework.answer
  const steps = best.steps.map(({ n, action, refs, minutes, hours, setting }) => [
    `${n}. ${stepTitle({ action, refs })}`,
    hours === undefined ? minutesWords(minutes) : `${numberWords(hours)} h in the oven`,
    setting === undefined ? 'no heat' : recipeWords(setting),
  ])
  return [
    ...list(rework.changes),
    ...(steps.length === 0 ? [] : [table('The plan for what is still open', ['Step', 'Time', 'Setting'], steps)]),
    ...(steps.length === 0
      ? []
      : [paragraph(`Planned: ${minutesWords(best.minutes)} and ${money(best.cost, handBack.currency)}.`)]),
    ...list(notes),
    ...list(
      rework.cannot.map(({ ref, missing }) => `${ref} can’t be lifted with this equipment: ${missing.join('; ')}.`),
    ),
  ]
}

function benchBlocks({ caseFile: { equipment, floorLife, shields, shop, handBack } }: RecordInput): RecordBlock[] {
  return [
    ...(floorLife.length === 0
      ? [paragraph('Floor life: no part is noted as out of its dry bag.')]
      : [
          table(
            'Floor life',
            ['Part', 'State'],
            floorLife.map(({ ref, state }) => [ref, state]),
          ),
        ]),
    ...(shields.length === 0
      ? []
      : [
          table(
            'Shields',
            ['While heating', 'Covered', 'With'],
            shields.map(({ target, ref, kind }) => [target, ref, kind === 'tape' ? 'tape' : 'a heat sink']),
          ),
        ]),
    equipment === undefined
      ? paragraph('Equipment: the shipped figures of a usual bench were used.')
      : facts('Equipment', leavesOf(equipment)),
    ...(shop === undefined
      ? []
      : [
          facts(
            `Prices, minutes and limits that differ from the shipped ones (${counted(leavesOf(shop).length, 'figure')})`,
            leavesOf(shop).map(([name, value]) => [
              name,
              /^(?:money|materials), /.test(name) ? money(Number(value), handBack.currency) : value,
            ]),
          ),
        ]),
  ]
}
