/** How far a visit has come: the last station at which something was entered, and that in one word for a list. */
import type { Mark } from '../spill/index.ts'
import type { Case } from './schema.ts'
import type { Station } from './stations.ts'

export const visitStates = ['arrived', 'looked over', 'judged', 'in work', 'proving', 'handed back'] as const
export type VisitState = (typeof visitStates)[number]

const isSpill = ({ kind }: Mark): boolean => kind === 'spill' || kind === 'dam'

/** On the bench machine. */
const wasLookedAt = ({ benchMachine }: Case, phase: 'before' | 'after'): boolean =>
  benchMachine?.[phase] !== undefined || (phase === 'after' && (benchMachine?.soaks.length ?? 0) > 0)

/** From the last station to the first: whether something was entered at it. */
const entered: readonly (readonly [Station, (c: Case) => boolean])[] = [
  [
    'hand-back',
    ({ handBack: h }) => [h.on, h.outcome, h.minutes, h.charged].some((v) => v !== undefined) || h.done !== '',
  ],
  ['proof', (c) => c.proofNote !== '' || c.reports.some(({ run }) => run === 'retest') || wasLookedAt(c, 'after')],
  ['plan', (c) => c.passes.length + c.floorLife.length + c.shields.length > 0],
  ['suspects', (c) => c.checks.length > 0],
  ['spill', (c) => c.marks.some(isSpill)],
  ['inspection', (c) => c.photos.some(({ atIntake }) => atIntake !== true) || c.marks.some((mark) => !isSpill(mark))],
  ['memory-run', (c) => c.reports.length > 0],
  [
    'powered-measuring',
    (c) =>
      c.powerUps.length > 0 || c.measurements.some(({ quantity }) => quantity === 'volts') || wasLookedAt(c, 'before'),
  ],
  ['cold-measuring', (c) => c.shorts.length > 0 || c.measurements.length > 0],
]

/** The last of the ten stations at which something was entered; the first where nothing was. */
export const furthestStation = (caseFile: Case): Station => entered.find(([, has]) => has(caseFile))?.[0] ?? 'arrival'

/**
 * Judged as soon as a first run or a check answered gives the stories something to explain; in work from the first
 * noted pass; handed back when an outcome stands. What is only looked at or measured is `looked over`.
 */
export function visitState(caseFile: Case): VisitState {
  if (caseFile.handBack.outcome !== undefined) return 'handed back'
  if (hasEntered(caseFile, 'proof')) return 'proving'
  if (caseFile.passes.length > 0) return 'in work'
  if (hasEntered(caseFile, 'memory-run') || caseFile.checks.length > 0) return 'judged'
  return furthestStation(caseFile) === 'arrival' ? 'arrived' : 'looked over'
}

const hasEntered = (caseFile: Case, station: Station): boolean =>
  entered.some(([each, has]) => each === station && has(caseFile))
