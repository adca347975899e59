/** From an order of passes to the steps at the bench: bake and prepare first, clean and make ready before each refit, inspect last. */
import { joined, say } from '../../base/index.ts'
import { type PlacedPart, stacksOn } from '../../board/index.ts'
import { handsOffUntilC, isNearHarm } from '../../heat/index.ts'
import type { Bake } from './bake.ts'
import { isReballed, minutesToMoney, reballMinutes } from '../../suspects/index.ts'
import { freed, gluedMinutes } from './unglue.ts'
import { cleaningMinutes } from '../bench-work.ts'
import type { PassDetail } from '../order/build.ts'
import { cautionsOf } from './cautions.ts'
import { coolerWords, dryingAfter, siteWords } from './cleaning.ts'
import type { Draft } from './step-draft.ts'
import { byRef, type CheckedInput } from '../input.ts'
import { opening } from './opening.ts'
import { LIFTED, ON, type OrderProblem, type Pass } from '../order/problem.ts'
import type { PlanStep } from '../result.ts'
import type { Walk, WalkedPass } from '../order/walk.ts'
import { reballLines } from './reball.ts'
import { whyHere } from '../order/why.ts'

type Exposed = PlanStep['exposed']

/**
 * The steps still to do, numbered from 1: opening, then each pass with what has to be ready before it, inspection
 * last. Steps that the log has as done or skipped are left out.
 */
export function stepsOf(checked: CheckedInput, problem: OrderProblem, walk: Walk, bake: Bake | undefined): PlanStep[] {
  const { passes } = walk
  const drafts: Draft[] = [...opening(checked, passes.length > 0, bake)]
  const cleaned = new Set(checked.input.begun?.cleaned)
  const ready = new Set<number>()
  for (const [at, walked] of passes.entries()) {
    const { pass } = walked
    if (pass.action === 'refit') drafts.push(...makeReady(checked, problem, walk, walked, cleaned, ready))
    const later = passes.slice(at + 1).map((each) => each.pass)
    drafts.push(...freed(checked, pass), passDraft(checked, problem, walked, passes[at - 1]?.pass, later))
  }
  const minutes = checked.settings.minutes.inspect * checked.targets.length
  const refs = checked.targets.map(({ ref }) => ref)
  drafts.push({ action: 'inspect', refs, minutes, why: inspectWords(checked) })
  const left = drafts.filter((draft) => !isTicked(checked, draft))
  return left.map((draft, index) => finishedStep(checked, draft, index + 1))
}

function inspectWords({ input, settings }: CheckedInput): string {
  // of a card that was dried it is looked at before the card is tested
  const { ovenC, dryHours: hours } = settings.heat
  const dried = dryingAfter(input.cleanFirst ?? [], { ovenC, hours }) !== undefined
  const cooler = dried ? '' : coolerWords(input.substances ?? [])
  return [
    say('1. Wash off the flux and dry the board.'),
    say('2. Before power: look at each new joint from the side, and measure the rails of these parts cold.'),
    say('3. First power: bench supply, its limit low, watch for heat.'),
    ...(cooler === ''
      ? [say('4. In the test machine: read every rail, run the test, warm and from cold.')]
      : [
          say('4. {cooler}', { cooler }),
          say('5. In the test machine: read every rail, run the test, warm and from cold.'),
        ]),
  ].join('\n')
}

/** Done or skipped by what was ticked off, for every part that it is for. */
function isTicked({ input: { begun } }: CheckedInput, { action, refs }: Draft): boolean {
  return refs.length > 0 && refs.every((ref) => begun?.ticked.has(`${action} ${ref}`) === true)
}

/** Cleans every site that is open and may be cleaned, then makes every lifted part or its replacement ready. */
function makeReady(
  checked: CheckedInput,
  problem: OrderProblem,
  walk: Walk,
  { pass, states }: WalkedPass,
  cleaned: Set<string>,
  ready: Set<number>,
): Draft[] {
  const open = [...states.keys()].filter((part) => states[part] === LIFTED)
  const sites = open.filter(
    (part) =>
      !cleaned.has(refAt(checked, part)) && (problem.offBeforeRefit[part] ?? []).every((other) => states[other] !== ON),
  )
  const drafts: Draft[] = []
  if (sites.length > 0) drafts.push(cleanDraft(checked, sites, states.includes(ON) ? BESIDE_OTHERS : ALL_OFF))
  for (const part of sites) cleaned.add(refAt(checked, part))
  const due = pass.members.some((member) => !ready.has(member))
    ? open.filter((part) => !ready.has(part) && cleaned.has(refAt(checked, part)))
    : []
  for (const part of due) ready.add(part)
  const reused = due.filter((part) => !walk.replaced.has(part))
  const fresh = due.filter((part) => walk.replaced.has(part))
  const limit = checked.settings.heat.heatLimit
  if (reused.length > 0)
    drafts.push({
      action: 'reball',
      refs: refsAt(checked, reused),
      minutes: sum(partsAt(checked, reused), (part) => reballMinutes(part, checked.settings)),
      why: [
        say(
          '{length, plural, one {It came off with fewer than} other {They came off with fewer than}} {limit} melts: back on new balls.{checked}',
          { length: reused.length, limit, checked: wickedFirst(checked, refsAt(checked, reused)) },
        ),
        ...reballLines(partsAt(checked, reused), checked.settings),
      ].join('\n'),
    })
  if (fresh.length > 0)
    drafts.push({
      action: 'replace',
      refs: refsAt(checked, fresh),
      minutes: fresh.length * checked.settings.minutes.replace,
      why: whyReplaced(checked, refsAt(checked, fresh), limit),
    })
  return drafts
}

/** Balls that have taken up metal are soft and weak; see the substances' `joints`. */
function wickedFirst({ input }: CheckedInput, refs: readonly string[]): string {
  const metal = refs.filter((ref) => input.begun?.metal.has(ref) === true)
  return metal.length === 0
    ? ''
    : say(' Wick every old ball off {metal} first, down to the pads: they took up metal.', { metal: joined(metal) })
}

/** New memory and cores come with their balls on. */
const hasNoBalls = (part: PlacedPart | undefined): boolean => part !== undefined && !isReballed(part)

function whyReplaced({ input }: CheckedInput, refs: readonly string[], limit: number): string {
  const bad = refs.filter((ref) => input.replace?.has(ref) === true)
  const worn = refs.filter((ref) => !bad.includes(ref))
  const stacks = refs.flatMap((ref) => stacksOn(input.model, ref).map((stack) => stack.ref))
  const reasons = [
    ...(bad.length > 0 && stacks.length > 0
      ? [
          say('{bad} or a stack on it may be bad, and a new one with its stacks costs less than a comeback', {
            bad: joined(bad),
          }),
        ]
      : []),
    ...(bad.length > 0 && stacks.length === 0
      ? [
          say(
            '{bad} may be bad {count, plural, one {itself, and a new one costs} other {themselves, and new ones cost}} less than a comeback',
            { bad: joined(bad), count: bad.length },
          ),
        ]
      : []),
    ...(worn.length > 0
      ? [
          say('{worn} {count, plural, one {is} other {are}} at the limit of {limit} melts', {
            worn: joined(worn),
            count: worn.length,
            limit,
          }),
        ]
      : []),
  ]
  const memory = refs.some((ref) => input.model.partByRef.get(ref)?.kind === 'memory')
  const which = memory
    ? say('Take memory of the same maker, density and speed grade, or one that the card’s straps and firmware accept.')
    : stacks.length > 0
      ? say('Take the same type with {stacks} on it.', { stacks: joined(stacks) })
      : say('Take the same type.')
  const bare = refs.some((ref) => hasNoBalls(input.model.partByRef.get(ref)))
  const solder = bare
    ? say(' It brings no balls: tin its pads thin and level, or print paste with a heat pad about half covered.')
    : ''
  return say(
    'New parts go on: {reasons}. {which}{solder} Look it over, and see that it is dry, before its site is heated.',
    { reasons: joined(reasons), which, solder },
  )
}

const ALL_OFF = say('While the part is off.')
const BESIDE_OTHERS = say(
  'Before these sites are refitted; what is still on stands too far away for solvent to creep under it.',
)
const LOOK_FIRST = say('Look and log what lies there before wiping.')
/** Common practice, no source. */
const SITE_WORK = [
  say('Braid the old solder off with the board warm (plate at 100 to 130 °C): on a cold board braid tears pads off.'),
  say(
    'Let it cool, clean with solvent, look at every pad, and blow it dry: nothing may smell of solvent when heat comes on.',
  ),
]

/** A track or its other end is found most easily here. Common practice, no source. */
const BARE_PADS = say(
  'Then read the bare pads in diode mode: each supply to ground, each data pad beside its neighbours. One that reads apart is a torn track, or the part at its other end.',
)

/** @param when why here in the order */
function cleanDraft(checked: CheckedInput, sites: readonly number[], when: string): Draft {
  const minutes = sum(partsAt(checked, sites), (part) => cleaningMinutes(part, checked.input.begun, checked.settings))
  const metal = refsAt(checked, sites).filter((ref) => checked.input.begun?.metal.has(ref) === true)
  const first =
    metal.length === 0
      ? ''
      : say(
          'Take up the metal under {metal} with dry swabs, then wick away the solder that has taken it up, so that fresh solder goes onto clean pads.',
          { metal: joined(metal) },
        )
  const substances = checked.input.substances ?? []
  const off = siteWords(substances.filter(({ cleaning }) => cleaning?.joints === undefined))
  const isAlloy = metal.length > 0 || substances.some(({ cleaning }) => cleaning?.joints !== undefined)
  const before = metal.length > 0 || !isAlloy ? first : ALLOY_FIRST
  const hasBalls = partsAt(checked, sites).some(({ kind }) => kind === 'core' || kind === 'memory')
  return {
    action: 'clean',
    refs: refsAt(checked, sites),
    minutes,
    why: [
      [when, LOOK_FIRST].join(' '),
      before,
      off,
      ...SITE_WORK,
      isAlloy ? ALLOY_APART : '',
      hasBalls ? BARE_PADS : '',
    ]
      .filter(Boolean)
      .join('\n'),
  }
}

/** Alloy may lie at a site although nobody has seen it yet. Common practice, no source. */
const ALLOY_FIRST = say('Take up every trace of alloy with dry swabs before the braid.')
const ALLOY_APART = say(
  'Wick all old solder off board and part: what took up alloy goes into the bin, and this tip and braid touch no other card.',
)

/** @param before the pass before it @param later the passes after it */
function passDraft(
  checked: CheckedInput,
  problem: OrderProblem,
  { pass, detail, states }: WalkedPass,
  before: Pass | undefined,
  later: readonly Pass[],
): Draft {
  const sideBefore = before?.side ?? problem.start.side
  const turned = sideBefore !== -1 && sideBefore !== pass.side
  const reason = whyHere(problem, checked.targets, states, pass, before, later)
  const off = new Set(checked.targets.filter((_, index) => states[index] === LIFTED).map(({ ref }) => ref))
  return {
    action: pass.action,
    refs: refsAt(checked, pass.members),
    minutes: detail.minutes - gluedMinutes(checked, pass) + (turned ? checked.settings.minutes.turnOver : 0),
    why: turned ? say('Turn the board over first. {reason}', { reason }) : reason,
    heat: detail.heat,
    exposed: exposedBy(checked, pass, detail, off),
  }
}

/** Other parts on the board that melt, pass a limit, or come near either. */
function exposedBy(checked: CheckedInput, pass: Pass, detail: PassDetail, off: ReadonlySet<string>): Exposed {
  const members = new Set(refsAt(checked, pass.members))
  const gone = checked.input.begun?.leftOff
  return detail.heat.neighbours
    .filter(({ ref }) => !off.has(ref) && !members.has(ref) && gone?.has(ref) !== true)
    .filter((heat) => heat.melts || heat.overLimit || isNearHarm(heat))
    .map(({ ref, jointPeakC, melts, overLimit, cracksFromC }) => ({ ref, jointPeakC, melts, overLimit, cracksFromC }))
    .toSorted((a, b) => b.jointPeakC - a.jointPeakC || byRef(a.ref, b.ref))
}

function finishedStep(checked: CheckedInput, draft: Draft, n: number): PlanStep {
  const { input, settings } = checked
  const parts = draft.refs.flatMap((ref) => input.model.partByRef.get(ref) ?? [])
  const wet = draft.refs.some((ref) => input.begun?.wet.has(ref) === true)
  return {
    n,
    action: draft.action,
    refs: draft.refs,
    minutes: draft.minutes,
    cost: minutesToMoney(draft.minutes, settings),
    ...(draft.hours === undefined ? {} : { hours: draft.hours }),
    why: draft.why,
    setting: draft.heat?.setting,
    ...(draft.heat?.joints === undefined ? {} : { joints: draft.heat.joints }),
    cautions: cautionsOf(draft.action, {
      parts,
      stacks: draft.refs.flatMap((ref) => stacksOn(input.model, ref).map((stack) => stack.ref)),
      substances: input.substances ?? [],
      wet,
    }),
    ...(draft.action === 'lift' ? { liftFromS: draft.heat?.liftFromS } : {}),
    ...(draft.action === 'refit'
      ? { handsOffUntilC: handsOffUntilC(parts.map(({ description }) => description)) }
      : {}),
    ...(draft.heat?.short === undefined ? {} : { short: draft.heat.short }),
    exposed: draft.exposed ?? [],
  }
}

const partsAt = (checked: CheckedInput, indices: readonly number[]): PlacedPart[] =>
  indices.flatMap((index) => checked.targets[index]?.part ?? [])
const refAt = (checked: CheckedInput, index: number): string => checked.targets[index]?.ref ?? ''
const refsAt = (checked: CheckedInput, indices: readonly number[]): string[] =>
  indices.map((index) => refAt(checked, index))
const sum = <T>(items: readonly T[], value: (item: T) => number): number =>
  items.reduce((total, item) => total + value(item), 0)
