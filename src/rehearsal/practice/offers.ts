/** All that can be done on a card, each with its minutes and money before it is done. */
import { say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { type CheckInstance, checkById, checkInstances, checkWords, liftableParts } from '../../suspects/index.ts'
import type { Known } from '../scorecard/ask.ts'
import { edgesToLook } from '../simulator/looks.ts'
import type { SimulatedCard } from '../simulator/types.ts'
import { type Bench, isMeasured } from './bench.ts'
import type { PracticeAction } from './game.ts'
import type { Paid, Till } from './paying.ts'
import { type Refusing, refusalOf } from './refusals.ts'

export type OfferGroup = 'measure' | 'look' | 'try' | 'run' | 'lift' | 'put-right'

export interface Offer extends Paid {
  readonly group: OfferGroup
  /** What the place is chosen for: id of the check, `lift`, `put-right`, `run`. */
  readonly what: string
  readonly action: PracticeAction
  /** The place alone, for a list to choose from. */
  readonly at: string
  readonly words: string
  readonly caution: string | undefined
  /** Why it can't be done now. */
  readonly refused: string | undefined
  readonly refs: readonly string[]
  readonly lanes: readonly string[]
}

type Open = Omit<Offer, keyof Paid | 'refused'>

/** What the card has to offer, whatever was done. */
export interface Ground extends Refusing {
  readonly open: readonly Open[]
}

/**
 * What does not change while the card is worked on. `known` is what was known as it came; later knowledge opens no
 * further offers.
 */
export function groundOfCard(card: SimulatedCard, known: Known): Ground {
  const { model } = card
  const instances = instancesOf(model, known)
  const names = putRightNames(model, known)
  return {
    card,
    checks: new Set(instances.map(({ check, at }) => `${check.id} ${at}`)),
    names: new Set(names.map(({ name }) => name)),
    open: [
      ...instances.map(offeredCheck),
      {
        ...BARE,
        group: 'run',
        what: 'run',
        action: { kind: 'run' },
        at: '',
        words: RUN_WORDS,
        caution: RUN_CAUTION,
      },
      ...liftableParts(model).map((ref) => offeredLift(ref)),
      ...names.map(({ name, words, refs, lanes }): Open => {
        const action = { kind: 'put-right', name } as const
        return {
          group: 'put-right',
          what: 'put-right',
          action,
          at: name,
          words,
          caution: PUT_RIGHT_CAUTION,
          refs,
          lanes,
        }
      }),
    ],
  }
}

const BARE = { refs: [], lanes: [] } as const
const RUN_WORDS = say('Run the memory test on the card as it is now.')
const RUN_CAUTION = say('The card is powered and loaded for long: cooler on, somebody beside it. Smell or smoke: off.')
const LIFT_CAUTION = say(
  'Hot air and molten solder burn, flux fume harms the lungs, old joints may hold lead: extraction, eye protection, somebody qualified.',
)
const PUT_RIGHT_CAUTION = say(
  'Supply unplugged, capacitors discharged. Hot tool and flux fume: extraction and eye protection.',
)

/** Every offer with its minutes and money now, and why it is refused where it is; none is left out. */
export function offersAt(ground: Ground, bench: Bench, till: Till): Offer[] {
  return ground.open.map((open) => {
    const paid = till.of(open.action, linesRead(ground.card.model, bench, open.action))
    return { ...open, ...paid, refused: refusalOf(ground, bench, open.action) }
  })
}

/** A stage is read with its siblings, as far as they were not read before. */
function linesRead(model: BoardModel, { known }: Bench, action: PracticeAction): number {
  if (action.kind !== 'check' || checkById(action.check)?.evidence !== 'stage') return 1
  const siblings = model.rails.find(({ stages }) => stages.includes(action.at))?.stages ?? [action.at]
  const open = siblings.filter((name) => !isMeasured(known, { kind: 'stage', name }))
  return open.length > 0 ? open.length : siblings.length
}

/** As next checks name them, whether or not they were done. */
function instancesOf(model: BoardModel, { lanes, signatures, spills }: Known): CheckInstance[] {
  const places = edgesToLook(model, spills)
  const findings = { lanes, signatures, spills, areas: [], slips: [], rails: new Map() }
  return checkInstances(model, findings, places).instances
}

function offeredCheck({ check, at, refs, lanes }: CheckInstance): Open {
  const action = { kind: 'check', check: check.id, at } as const
  const words = checkWords(check.question, at)
  return { group: groupOf(check), what: check.id, action, at, words, caution: check.caution, refs, lanes }
}

function groupOf({ evidence, id }: CheckInstance['check']): OfferGroup {
  if (evidence === 'rail' || evidence === 'stage') return 'measure'
  return evidence === 'area' || LOOKS.includes(id) ? 'look' : 'try'
}

const LOOKS = ['under-look', 'dye-light', 'x-ray']

function offeredLift(ref: string): Open {
  const words = say('Take {ref} off, look under it, put right what is wrong there, and refit it.', { ref })
  const action = { kind: 'lift', ref } as const
  return { group: 'lift', what: 'lift', action, at: ref, words, caution: LIFT_CAUTION, refs: [ref], lanes: [] }
}

interface Named {
  readonly name: string
  readonly words: string
  readonly refs: readonly string[]
  readonly lanes: readonly string[]
}

/** Rails, what a marked slip hit, and the tracks of lanes that fail. */
function putRightNames(model: BoardModel, { lanes, slips }: Known): Named[] {
  const tracks = model.lanes.filter(({ id }) => lanes.get(id) === 'fail' && model.corridorByLane.has(id))
  return [
    ...model.rails.map(({ name, stages }) => ({
      name: `rail ${name}`,
      words: say('Go into rail {name} and its small parts, and mend it.', { name }),
      refs: stages,
      lanes: [],
    })),
    ...slips.map(({ id }) => ({
      name: `slip ${id}`,
      words: say('Mend what the slipped tool hit.'),
      refs: [],
      lanes: [],
    })),
    ...tracks.map(({ id, part }) => ({
      name: id,
      words: say('Mend the track and the series parts of lane {id}.', { id }),
      refs: [part],
      lanes: [id],
    })),
  ]
}
