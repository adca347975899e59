/**
 * What is done to a part follows from what is wrong with it: a bad die is replaced, bad joints and what lies under a part
 * are cleaned away and get fresh balls, what a liquid only reached is washed in place. Replacing mends joints too; reballing
 * a part whose die is bad costs a comeback and the lift again. So it is replaced where that risk costs more than a new part.
 */
import { percent, roughMoney } from '../../base/index.ts'
import { curesOf } from '../remedies/figures.ts'
import type { Grounds } from './why.ts'

export type RemedyAction = 'leave' | 'wash' | 'reball' | 'replace'

export interface Remedy {
  readonly action: RemedyAction
  /** In one sentence, with the chance that it rests on. */
  readonly because: string
}

export interface RemedyQuestion {
  readonly grounds: Grounds
  readonly ref: string
  /** Of the part among the network's parts. */
  readonly index: number
  readonly lift: boolean
  /** A new part, and coming back for it once more, in the shop's currency. */
  readonly price: number
  readonly redo: number
  /** What was spilled is metal, which stays in the pads of a part that goes back on. */
  readonly metal: boolean
}

/** From this chance on, what a liquid reached without spoiling it is washed. */
const WASHED_FROM = 0.2

export function remedyOf(question: RemedyQuestion): Remedy {
  const { grounds, ref, index, lift, price, redo, metal } = question
  const probability = grounds.question.probability[index] ?? 0
  if (!lift) return onTheBoard(grounds, ref, probability)
  const { die, joints } = wrongWith(grounds, ref, index)
  const beneath = Math.max(0, probability - die - joints)
  const whole = die + joints + beneath
  const bad = whole > 0 ? die / whole : 0
  if (bad * redo > price) {
    return { action: 'replace', because: whyReplace(die, bad, price) }
  }
  const { replaceBeneath, reballBeneath } = curesOf(metal ? 'metal' : 'liquid')
  const stays = whole > 0 ? (beneath / whole) * Math.max(0, replaceBeneath - reballBeneath) : 0
  if (metal && (bad + stays) * redo > price) {
    const because = `Replace it rather than reball it: alloy may have crept into its pads (${percent(beneath)}), and a new one costs about ${roughMoney(price)}.`
    return { action: 'replace', because }
  }
  return joints >= beneath
    ? { action: 'reball', because: `Reball it: its joints are open or cracked (${percent(joints)}).` }
    : { action: 'reball', because: `Reball it and clean its site: something lies under it (${percent(beneath)}).` }
}

function whyReplace(die: number, share: number, price: number): string {
  if (share < 0.5)
    return `Replace it rather than reball it: a new one costs about ${roughMoney(price)}, and it may be bad itself (${percent(die)}).`
  return die >= 0.5
    ? `Replace it: it is bad itself (${percent(die)}).`
    : `Replace it when it comes off: if anything is wrong there, it is the part itself (${percent(die)}).`
}

/** What is wrong with a part, as chances that sum to one. */
export interface WrongWith {
  /** The part itself. */
  readonly die: number
  readonly joints: number
  /** What lies under it. */
  readonly beneath: number
  readonly nothing: number
}

/** Where several are wrong at once, the first of die, joints and what lies beneath counts, as it decides what is done. */
export function splitOf(grounds: Grounds, ref: string, index: number): WrongWith {
  const need = grounds.question.probability[index] ?? 0
  const { die, joints } = wrongWith(grounds, ref, index)
  const atDie = Math.min(need, die)
  const atJoints = Math.min(need - atDie, joints)
  return { die: atDie, joints: atJoints, beneath: need - atDie - atJoints, nothing: 1 - need }
}

/** The chance that the part itself is bad, and that its joints are; what lies under it is the rest of its need. */
function wrongWith({ reasons }: Grounds, ref: string, index: number): { die: number; joints: number } {
  let die = 0
  let joints = 0
  for (const { at, probability, lifts } of reasons.own.get(ref) ?? []) {
    if (!lifts) continue
    if (at.kind === 'die') die += probability
    else joints += probability
  }
  for (const { at, probability, lifts } of reasons.shared) {
    if (!lifts.includes(index)) continue
    if (at.kind === 'core-patch') joints += probability
    else die += probability
  }
  return { die, joints }
}

function onTheBoard({ flows, weighed }: Grounds, ref: string, probability: number): Remedy {
  const reached = flows.reduce((most, { spill, after }) => {
    return spill.harm === undefined || spill.harm === 'liquid' ? Math.max(most, after.get(ref) ?? 0) : most
  }, 0)
  const isBody = weighed.card.context.model.partByRef.get(ref)?.ballPitchMm !== undefined
  return reached >= WASHED_FROM && isBody
    ? {
        action: 'wash',
        because: `Wash and dry it in place: the spill reached it (${percent(reached)}), and it need not come off for that.`,
      }
    : { action: 'leave', because: `Leave it on: it needs work with a chance of ${percent(probability)}.` }
}
