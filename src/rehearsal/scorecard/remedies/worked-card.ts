/**
 * A simulated card under work: what is still broken, what is off, and what washing, refitting and repairing did to it. The
 * luck of each act is the card's own, so that everybody who does the same meets the same.
 */
import { substances } from '../../../spill/index.ts'
import { harmOf } from '../../../suspects/index.ts'
import { lasting } from '../../simulator/draw.ts'
import type { FigureName } from '../../simulator/mixture.ts'
import type { Damage, FoundUnder, SimulatedCard } from '../../simulator/types.ts'

export interface WorkedCard {
  readonly damages: readonly Damage[]
  readonly off: readonly string[]
  /** Parts that came off in such a state that a new one goes back; a core among them is the end of the card. */
  readonly lost: readonly string[]
  readonly hot: boolean
  /** Acts so far: the luck of one is not that of the next. */
  readonly acts: number
}

/** A card with all its damages that show in a lane or on a line, and nothing done. */
export const asItCame = ({ truth }: SimulatedCard): WorkedCard => ({
  damages: truth.damages.filter(({ lanes, lines }) => lanes.length > 0 || lines.length > 0),
  off: [],
  lost: [],
  hot: false,
  acts: 0,
})

/** Whether nothing is left broken; what is off the board is not asked. */
export const isSound = ({ damages }: WorkedCard): boolean => damages.length === 0

/** Whether the core was lost in lifting, which ends the repair. */
export const isCardLost = ({ model }: SimulatedCard, { lost }: WorkedCard): boolean =>
  lost.includes(model.core?.ref ?? '')

/** @returns whether the card's own luck at this act is on the side of a figure of its mixture */
const happens = ({ seed, figures }: SimulatedCard, { acts }: WorkedCard, figure: FigureName, at: string): boolean =>
  lasting(seed, `act ${acts} ${figure} ${at}`) < figures[figure]

const isMetal = ({ truth }: SimulatedCard, { cause }: Damage): boolean =>
  substances.some(
    (substance) => substance.id === truth.causes[cause]?.spill?.substance && harmOf(substance) === 'metal',
  )

/**
 * What is no metal and lies on a track goes for sure; what lies beneath a part, or is metal, with a chance, each place
 * apart from the others.
 */
export function washed(card: SimulatedCard, worked: WorkedCard): WorkedCard {
  const damages = worked.damages.filter((damage) => {
    if (damage.kind !== 'spill') return true
    if (damage.ref === undefined && !isMetal(card, damage)) return false
    return !happens(card, worked, isMetal(card, damage) ? 'washCuresMetal' : 'washCures', damage.at)
  })
  return { ...worked, damages, acts: worked.acts + 1 }
}

/** Metal in the open is swabbed off; what lies beneath a part comes along only by luck. */
export function takenUp(card: SimulatedCard, worked: WorkedCard): WorkedCard {
  const damages = worked.damages.filter(
    (damage) =>
      damage.kind !== 'spill' ||
      !isMetal(card, damage) ||
      (damage.ref !== undefined && !happens(card, worked, 'takeUpCures', damage.at)),
  )
  return { ...worked, damages, acts: worked.acts + 1 }
}

export interface Lifted {
  readonly worked: WorkedCard
  readonly found: FoundUnder
}

/**
 * The card with one part off, and what was seen under it. Whether the part is lost, and whether a look sees rightly,
 * is drawn from the card's own luck.
 */
export function lifted(card: SimulatedCard, worked: WorkedCard, ref: string): Lifted {
  const kind = card.model.partByRef.get(ref)?.kind
  const figure = kind === 'core' ? 'liftLosesCore' : 'liftLosesMemory'
  const isLost = (kind === 'core' || kind === 'memory') && happens(card, worked, figure, ref)
  const [real] = card.lift([ref])
  const wet = real?.wet ?? []
  const isSeen = happens(card, worked, wet.length > 0 ? 'seenUnder' : 'seenUnderClean', ref)
  const regions = wet.length > 0 ? wet : falseAlarm(card, ref)
  const found = { ref, atFault: false, wet: isSeen ? regions : [], kinds: [] }
  const lost = isLost ? [...worked.lost, ref] : worked.lost
  return { worked: { ...worked, off: [...worked.off, ref], lost, hot: true, acts: worked.acts + 1 }, found }
}

const falseAlarm = ({ model }: SimulatedCard, ref: string): string[] =>
  model.regions.flatMap(({ id, part }) => (part === ref ? [id] : [])).slice(0, 1)

/** Cleans all that is off and puts it back, new parts in the place of those named and of those that were lost. */
export function refitted(card: SimulatedCard, worked: WorkedCard, fresh: readonly string[]): WorkedCard {
  const isNew = (ref: string): boolean => fresh.includes(ref) || worked.lost.includes(ref)
  const old = worked.damages.filter(
    (damage) => damage.ref === undefined || !worked.off.includes(damage.ref) || !isCured(card, worked, damage, isNew),
  )
  const spoiled = worked.off.flatMap((ref) => spoiledBy(card, worked, ref))
  const damages = [...old.filter((damage) => !isMendedInPassing(damage)), ...spoiled]
  return { ...worked, damages, off: [], acts: worked.acts + 1 }
}

/** Cut tracks and what a tool hit are seen by whoever works on the card. */
const isMendedInPassing = ({ kind, ref }: Damage): boolean =>
  ref === undefined && (kind === 'slip' || kind === 'corridor' || kind === 'spill')

function isCured(card: SimulatedCard, worked: WorkedCard, damage: Damage, isNew: (ref: string) => boolean): boolean {
  const { kind, ref = '', at } = damage
  const chanceOf = (figure: FigureName): boolean => happens(card, worked, figure, `${ref} ${at}`)
  if (kind === 'spill') return chanceOf(isMetal(card, damage) && !isNew(ref) ? 'siteCuresMetal' : 'siteCures')
  if (kind === 'joints' || kind === 'command-joints' || kind === 'core-patch') return chanceOf('reballCures')
  const isSmall = card.model.partByRef.get(ref)?.kind !== 'memory' && ref !== card.model.core?.ref
  return (isNew(ref) || isSmall) && chanceOf('newPartGood')
}

/** A lane of a part that was refitted badly fails for good; of a core any lane of the board. */
function spoiledBy(card: SimulatedCard, worked: WorkedCard, ref: string): Damage[] {
  const { model, seed } = card
  const kind = model.partByRef.get(ref)?.kind
  if (kind !== 'core' && kind !== 'memory') return []
  if (!happens(card, worked, kind === 'core' ? 'refitSpoilsCore' : 'refitSpoilsMemory', ref)) return []
  const own = kind === 'core' ? model.lanes : model.lanes.filter(({ part }) => part === ref)
  const lane = own[Math.floor(lasting(seed, `act ${worked.acts} spoiled ${ref}`) * own.length)]
  if (lane === undefined) return []
  const bits = 2 ** lane.bitCount - 1
  const lanes = [{ lane: lane.id, bits, reads: 'random', perRead: 1 } as const]
  return [
    {
      cause: -1,
      kind: kind === 'core' ? 'core-patch' : 'joints',
      at: `${ref} refitted`,
      ref,
      lanes,
      lines: [],
    },
  ]
}

/** Rails (`rail VMEM`, with their branches), tracks of a lane, a slip's marks: found and put right by chance. */
export function putRight(card: SimulatedCard, worked: WorkedCard, names: readonly string[]): WorkedCard {
  const isMeant = ({ kind, at, ref }: Damage): boolean =>
    ref === undefined &&
    names.some(
      (name) =>
        at === name.replace('the track of ', '') ||
        at.endsWith(` of ${name}`) ||
        (kind === 'slip' && !name.startsWith('rail') && !name.startsWith('the track')),
    )
  const damages = worked.damages.filter(
    (damage) => !isMeant(damage) || !happens(card, worked, 'repairFinds', damage.at),
  )
  return { ...worked, damages, acts: worked.acts + 1 }
}
