/** The truth of a practice card in words: what happened, what it broke, what it only reached. */
import { sentenceCase, someOf, say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { type NoteMark, substances } from '../../spill/index.ts'
import type { Damage, TrueCause, Truth } from '../simulator/types.ts'
import { placeOn } from './account-words.ts'
import { workplaceSaid } from './place-words.ts'

export interface TruthWords {
  readonly happened: readonly string[]
  /** Parts that had to come off, with what was wrong there. */
  readonly bad: readonly { readonly ref: string; readonly words: string }[]
  /** What was mended in place, or had to be. */
  readonly inPlace: readonly string[]
  /** Parts that something reached without harm. */
  readonly onlyReached: readonly string[]
  /** Where it happened, as notes for the map. */
  readonly places: readonly NoteMark[]
}

/**
 * Only damage that shows in a lane or on a line is told as bad; what a spill reached without need of a lift is told
 * apart.
 */
export function truthWords(model: BoardModel, truth: Truth): TruthWords {
  const atFault = truth.damages.filter(({ lanes, lines }) => lanes.length + lines.length > 0)
  const reached = truth.causes.flatMap(({ spill }) => spill?.regions ?? [])
  const reachedParts = new Set(reached.flatMap((id) => model.regionById.get(id)?.part ?? []))
  return {
    happened: truth.causes.map((cause) => causeWords(model, cause)),
    bad: truth.needs.map((ref) => ({ ref, words: badWords(model, ref, atFault) })),
    inPlace: [...new Set(atFault.flatMap((damage) => (damage.ref === undefined ? [inPlaceWords(model, damage)] : [])))],
    onlyReached: [...reachedParts].filter((ref) => !truth.needs.includes(ref)),
    places: truth.causes.flatMap(noteOf),
  }
}

function noteOf({ spill, slip }: TrueCause, index: number): NoteMark[] {
  const place = spill ?? slip
  if (place === undefined) return []
  const text =
    spill === undefined
      ? say('the tool slipped here')
      : say('{substance}, really here', { substance: substanceName(spill.substance) })
  return [{ kind: 'note', id: `truth-${index + 1}`, side: place.side, at: place.at, text }]
}

const substanceName = (id: string): string =>
  (substances.find((each) => each.id === id)?.name ?? id).split(',')[0] ?? id

const howBadly = (severity = 0): string => (severity < 0.4 ? 'little' : severity < 0.75 ? 'clear' : 'bad')

const offWords = (at: string, severity?: number): string =>
  say('{at} was {severity, select, little {a little} clear {clearly} other {badly}} off.', {
    at: sentenceCase(workplaceSaid(at)),
    severity: howBadly(severity),
  })

function causeWords(model: BoardModel, { kind, at, severity, spill, slip }: TrueCause): string {
  if (spill !== undefined) {
    const much =
      spill.smear === undefined
        ? `${spill.volumeMl.toPrecision(2)} ml`
        : say('{value} cm²', { value: spill.smear.areaCm2.toPrecision(2) })
    const harmless = kind === 'nothing' ? say(' It did no harm.') : ''
    return say('{substance}, {much}, got onto the board {place}.{harmless}', {
      substance: substanceName(spill.substance),
      much,
      place: placeOn(model, spill.at, spill.side),
      harmless,
    })
  }
  if (slip !== undefined) return say('A tool slipped {place}.', { place: placeOn(model, slip.at, slip.side) })
  const region = model.regionById.get(at)
  const under = region === undefined ? at : say('{part} at {name}', { part: region.part, name: region.name })
  const words: Record<TrueCause['kind'], string> = {
    die: say('The die of {at} was bad.', { at }),
    joints: say('Joints under {under} were bad.', { under }),
    'command-joints': say('Command joints under {under} were bad.', { under }),
    'core-patch': say('Joints under a patch of the core were bad.'),
    'core-controller': say('One memory controller in the core was bad.'),
    'core-side': say('One side of the core was bad.'),
    'core-whole': say('The core was bad as a whole.'),
    rail: offWords(at, severity),
    'rail-branch': offWords(at, severity),
    'power-stage': say(
      'Power stage {at} was {severity, select, little {a little} clear {clearly} other {badly}} off.',
      { at, severity: howBadly(severity) },
    ),
    slip: say('A tool slipped.'),
    'wet-spill': say('Something was spilled.'),
    'pasty-spill': say('Something was smeared on it.'),
    nothing: say('Nothing was wrong with this card that the test shows.'),
  }
  return words[kind]
}

/** Lanes of a part, shortened: `U13: what lay under A0 and A1 spoiled 2 lanes`. */
function badWords(model: BoardModel, ref: string, damages: readonly Damage[]): string {
  const own = damages.filter((damage) => damage.ref === ref)
  const lanes = new Set(own.flatMap(({ lanes: spoiled }) => spoiled.map(({ lane }) => lane)))
  const places = [...new Set(own.flatMap(({ at }) => model.regionById.get(at)?.name ?? []))]
  const kinds = [...new Set(own.map(({ kind }) => WRONG[kind]))]
  const where = places.length > 0 ? say(' at {places}', { places: someOf(places, 5) }) : ''
  const spoiled =
    lanes.size === 0 ? '' : say('; {size} {size, plural, one {lane} other {lanes}} spoiled', { size: lanes.size })
  return `${someOf(kinds, 4)}${where}${spoiled}`
}

const WRONG: Readonly<Record<Damage['kind'], string>> = {
  die: say('its die'),
  joints: say('its joints'),
  'command-joints': say('its command joints'),
  corridor: say('a track'),
  rail: say('a rail'),
  'rail-branch': say('a branch of a rail'),
  'power-stage': say('the stage itself'),
  core: say('the core itself'),
  'core-patch': say('joints under it'),
  spill: say('what was spilled under it'),
  'unreported-spill': say('what was spilled under it'),
  slip: say('what the tool hit'),
}

function inPlaceWords(model: BoardModel, { kind, at }: Damage): string {
  if (kind === 'rail' || kind === 'rail-branch') return sentenceCase(workplaceSaid(at))
  if (model.laneById.has(at)) return say('The track of lane {at}', { at })
  return model.partByRef.has(at) ? say('Small part {at}', { at }) : sentenceCase(at)
}
