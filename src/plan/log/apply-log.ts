/** From the plan's question and a log to the question as it stands now: states, heat counts, findings, what is left of the list. */
import { bad, type Fault, good, type Result, say } from '../../base/index.ts'
import { heatCountOf, neighbourLimitC } from '../order/harm.ts'
import type { PlanInput } from '../input.ts'
import type { BenchTick, PassEntry, PassLog } from './log.ts'
import type { ShopSettings } from '../settings.ts'

interface Job {
  readonly input: PlanInput
  readonly settings: ShopSettings
  readonly lift: Set<string>
  readonly counts: Map<string, number>
  readonly lifted: Set<string>
  readonly refitted: Set<string>
  readonly leftOff: Set<string>
  readonly corroded: Set<string>
  readonly wet: Set<string>
  readonly metal: Set<string>
  readonly torn: Set<string>
  side: 'top' | 'bottom' | undefined
}

/**
 * Refuses entries that cannot follow on what stands before them, each with its own fault.
 * @param ticks bench work that was ticked off between them
 */
export function applyLog(
  input: PlanInput,
  log: PassLog,
  settings: ShopSettings,
  ticks: readonly BenchTick[] = [],
): Result<PlanInput> {
  const job: Job = {
    input,
    settings,
    lift: new Set(input.lift),
    counts: new Map(input.heatCounts),
    lifted: new Set(input.begun?.lifted),
    refitted: new Set(input.begun?.refitted),
    leftOff: new Set(input.begun?.leftOff),
    corroded: new Set(input.begun?.corroded),
    wet: new Set(input.begun?.wet),
    metal: new Set(input.begun?.metal),
    torn: new Set(input.begun?.tornPads),
    side: input.begun?.side,
  }
  const faults: Fault[] = []
  for (const [index, entry] of log.entries()) {
    const fault = misfit(job, entry, `$.log[${index}]`)
    if (fault !== undefined) faults.push(fault)
    else apply(job, entry)
  }
  if (faults.length > 0) return bad(...faults)
  if (log.length === 0 && ticks.length === 0) return good(input)
  const counting = ticks.filter((tick) => !isDrying(tick) || tick.afterPasses > lastWet(log))
  if (counting.some((tick) => isDrying(tick) && tick.outcome === 'done')) job.wet.clear()
  const { counts, lifted, refitted, leftOff, corroded, wet, metal, torn, side } = job
  const cleaned = new Set(input.begun?.cleaned)
  for (const ref of refitted) cleaned.add(ref)
  for (const { action, refs } of counting) if (action === 'clean') for (const ref of refs) cleaned.add(ref)
  const ticked = new Set(counting.flatMap(({ action, refs }) => refs.map((ref) => `${action} ${ref}`)))
  const begun = {
    lifted,
    refitted,
    leftOff,
    cleaned,
    corroded,
    wet,
    metal,
    tornPads: tornPadsOf(input, torn),
    side,
    ticked,
  }
  return good({ ...input, lift: [...job.lift], heatCounts: counts, begun })
}

/** What was noted ball by ball counts so often, none of it where all may stay; else once where the log says torn. */
function tornPadsOf({ tornBalls }: PlanInput, torn: ReadonlySet<string>): string[] {
  const refs = new Set([...torn, ...(tornBalls?.keys() ?? [])])
  return [...refs].flatMap((ref) => Array.from({ length: tornBalls?.get(ref) ?? 1 }, () => ref))
}

/** A bake dries as well. */
const isDrying = ({ action }: BenchTick): boolean => action === 'dry' || action === 'bake'

/** What was wet once it came off has to be dried after that; -1 where nothing was. */
const lastWet = (log: PassLog): number =>
  log.findLastIndex(({ found }) => found.some(({ what }) => what.includes('wet')))

function misfit(job: Job, entry: PassEntry, path: string): Fault | undefined {
  const unknown = entry.refs.find((ref) => !job.lift.has(ref))
  if (unknown !== undefined)
    return {
      path: `${path}.refs`,
      found: unknown,
      expected: say('a part that is on the lift list and was not skipped'),
    }
  const wrong = entry.refs.find((ref) => job.lifted.has(ref) !== (entry.action === 'refit') || job.refitted.has(ref))
  if (wrong === undefined) return undefined
  const state = job.refitted.has(wrong)
    ? say('refitted already')
    : job.lifted.has(wrong)
      ? say('off already')
      : say('still on')
  const expected = entry.action === 'lift' ? say('a part that is still on') : say('a part that is off')
  return {
    path: `${path}.refs`,
    found: say('{wrong}, which is {state}', { wrong, state }),
    expected,
    todo: say('Correct the order of the log.'),
  }
}

/** What was wet before a pass was dried before it. */
function apply(job: Job, entry: PassEntry): void {
  if (entry.outcome !== 'skipped') job.wet.clear()
  note(job, entry)
  if (entry.outcome === 'skipped') {
    for (const ref of entry.refs) {
      job.lift.delete(ref)
      if (job.lifted.delete(ref)) job.leftOff.add(ref)
    }
    return
  }
  const exposure = heatFor(job.input, entry)
  job.side = exposure?.setting.side ?? job.side
  heatNeighbours(job, entry, exposure?.neighbours.filter(({ melts }) => melts).map(({ ref }) => ref) ?? [])
  if (entry.outcome === 'failed') {
    for (const ref of entry.refs) if (isMolten(job, ref, entry.peakC)) raise(job, ref)
    return
  }
  for (const ref of entry.refs) {
    if (entry.action === 'lift') {
      raise(job, ref)
      job.lifted.add(ref)
    } else {
      job.counts.set(ref, entry.replaced ? 1 : count(job, ref) + 2)
      job.lifted.delete(ref)
      job.refitted.add(ref)
    }
  }
}

function note(job: Job, entry: PassEntry): void {
  for (const { ref, what } of entry.found) {
    if (what.includes('corroded')) job.corroded.add(ref)
    if (what.includes('wet')) job.wet.add(ref)
    if (what.includes('metal')) job.metal.add(ref)
    if (what.includes('torn-pad')) job.torn.add(ref)
  }
}

/** What the very pass of an entry did to its neighbours, as the model has it. */
function heatFor(input: PlanInput, { refs, action }: PassEntry) {
  const exposure = exposureFor(input, refs)
  return action === 'refit' ? (exposure?.refit ?? exposure) : exposure
}

function exposureFor(input: PlanInput, refs: readonly string[]) {
  if (refs.length === 1) return input.exposures.get(refs[0] ?? '')
  const group = input.groups?.find(
    (each) => each.refs.length === refs.length && each.refs.every((ref) => refs.includes(ref)),
  )
  return group?.exposure
}

function heatNeighbours(job: Job, entry: PassEntry, modelled: readonly string[]): void {
  const measured = new Map(entry.measured.map(({ ref, peakC }) => [ref, peakC]))
  const melted = new Set(modelled.filter((ref) => !measured.has(ref)))
  for (const [ref, peakC] of measured) if (isMolten(job, ref, peakC)) melted.add(ref)
  for (const ref of melted)
    if (!job.lifted.has(ref) && !job.leftOff.has(ref) && !entry.refs.includes(ref)) raise(job, ref)
}

/** On the safe side: whatever passed the temperature that neighbours should stay below counts as molten. */
function isMolten({ input, settings }: Job, ref: string, peakC: number | undefined): boolean {
  const part = input.model.partByRef.get(ref)
  return part !== undefined && (peakC === undefined || peakC >= neighbourLimitC(part, settings))
}

function count({ input, counts, settings }: Job, ref: string): number {
  const part = input.model.partByRef.get(ref)
  return part === undefined ? 0 : heatCountOf(part, counts, settings)
}

const raise = (job: Job, ref: string): void => {
  job.counts.set(ref, count(job, ref) + 1)
}
