/**
 * What is done to a part follows from what is wrong with it: a bad die is replaced, bad joints and what lies under a part
 * are cleaned away and get fresh balls, what a liquid only reached is washed in place. Which listed parts get new ones in their
 * place is for the decision tree (`../remedies/list-work.ts`); here it is put in words.
 */
import { joined, percent, roughMoney, say } from '../../base/index.ts'
import { stacksOn } from '../../board/index.ts'
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
  /** A new one goes on in its place, at this price in the shop's currency. */
  readonly isNew: boolean
  readonly price: number
}

/** From this chance on, what a liquid reached without spoiling it is washed. */
const WASHED_FROM = 0.2

/**
 * The remedy of one part and why: off the list it is washed or left, on the list replaced or reballed as the tree
 * decided.
 */
export function remedyOf({ grounds, ref, index, lift, isNew, price }: RemedyQuestion): Remedy {
  const wrong = splitOf(grounds, ref, index)
  if (!lift) return onTheBoard(grounds, ref, 1 - wrong.nothing)
  if (isNew) {
    const { model } = grounds.weighed.card.context
    const stacks = stacksOn(model, ref).map((stack) => stack.ref)
    return {
      action: 'replace',
      because:
        stacks.length > 0
          ? whyReplaceStacked(wrong, stacks)
          : whyReplace(wrong, roughMoney(price, grounds.weighed.prices.currency)),
    }
  }
  const { joints, beneath } = wrong
  return joints >= beneath
    ? {
        action: 'reball',
        because: say('Reball it: its joints are open or cracked ({joints}).', { joints: percent(joints) }),
      }
    : {
        action: 'reball',
        because: say('Reball it and clean its site: something lies under it ({beneath}).', {
          beneath: percent(beneath),
        }),
      }
}

const whyReplaceStacked = ({ die }: WrongWith, stacks: readonly string[]): string =>
  say('Replace it with the stacks on it: it or one of {stacks} is bad ({die}), and none of these comes off alone.', {
    stacks: joined(stacks),
    die: percent(die),
  })

function whyReplace({ die, beneath, nothing }: WrongWith, price: string): string {
  if (die >= 0.5) return say('Replace it: it is bad itself ({die}).', { die: percent(die) })
  if (die >= (1 - nothing) / 2)
    return say(
      'If it comes off, fit a new one: of what may be wrong with it, a fault of its own is the likeliest ({die}).',
      {
        die: percent(die),
      },
    )
  const cheap = say('Replace it rather than reball it: a new one costs about {price}', { price })
  return die >= beneath
    ? say('{cheap}, and it may be bad itself ({die}).', { cheap, die: percent(die) })
    : say('{cheap}, and what lies under it may have got into its pads ({beneath}).', {
        cheap,
        beneath: percent(beneath),
      })
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
        because: say('Wash and dry it in place: the spill reached it ({reached}), and it need not come off for that.', {
          reached: percent(reached),
        }),
      }
    : {
        action: 'leave',
        because: say('Leave it on: it needs work with a chance of {probability}.', {
          probability: percent(probability),
        }),
      }
}
