/** The truth of a practice card in words: what happened, what it broke, what it only reached. */
import { sentenceCase, someOf } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { type NoteMark, substances } from '../../spill/index.ts'
import type { Damage, TrueCause, Truth } from '../simulator/types.ts'
import { placeOn } from './account-words.ts'

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
  const text = spill === undefined ? 'the tool slipped here' : `${substanceName(spill.substance)}, really here`
  return [{ kind: 'note', id: `truth-${index + 1}`, side: place.side, at: place.at, text }]
}

const substanceName = (id: string): string =>
  (substances.find((each) => each.id === id)?.name ?? id).split(',')[0] ?? id

const howBadly = (severity = 0): string => (severity < 0.4 ? 'a little' : severity < 0.75 ? 'clearly' : 'badly')

function causeWords(model: BoardModel, { kind, at, severity, spill, slip }: TrueCause): string {
  if (spill !== undefined) {
    const much =
      spill.smear === undefined ? `${spill.volumeMl.toPrecision(2)} ml` : `${spill.smear.areaCm2.toPrecision(2)} cm²`
    const harmless = kind === 'nothing' ? ' It did no harm.' : ''
    return `${substanceName(spill.substance)}, ${much}, got onto the board ${placeOn(model, spill.at, spill.side)}.${harmless}`
  }
  if (slip !== undefined) return `A tool slipped ${placeOn(model, slip.at, slip.side)}.`
  const region = model.regionById.get(at)
  const under = region === undefined ? at : `${region.part} at ${region.name}`
  const words: Record<TrueCause['kind'], string> = {
    die: `The die of ${at} was bad.`,
    joints: `Joints under ${under} were bad.`,
    'command-joints': `Command joints under ${under} were bad.`,
    'core-patch': 'Joints under a patch of the core were bad.',
    'core-controller': 'One memory controller in the core was bad.',
    'core-side': 'One side of the core was bad.',
    'core-whole': 'The core was bad as a whole.',
    rail: `${sentenceCase(at)} was ${howBadly(severity)} off.`,
    'rail-branch': `${sentenceCase(at)} was ${howBadly(severity)} off.`,
    'power-stage': `Power stage ${at} was ${howBadly(severity)} off.`,
    slip: 'A tool slipped.',
    'wet-spill': 'Something was spilled.',
    'pasty-spill': 'Something was smeared on it.',
    nothing: 'Nothing was wrong with this card that the test shows.',
  }
  return words[kind]
}

/** Lanes of a part, shortened: `U13: what lay under A0 and A1 spoiled 2 lanes`. */
function badWords(model: BoardModel, ref: string, damages: readonly Damage[]): string {
  const own = damages.filter((damage) => damage.ref === ref)
  const lanes = new Set(own.flatMap(({ lanes: spoiled }) => spoiled.map(({ lane }) => lane)))
  const places = [...new Set(own.flatMap(({ at }) => model.regionById.get(at)?.name ?? []))]
  const kinds = [...new Set(own.map(({ kind }) => WRONG[kind]))]
  const where = places.length > 0 ? ` at ${someOf(places, 5)}` : ''
  const spoiled = lanes.size === 0 ? '' : `; ${lanes.size} ${lanes.size === 1 ? 'lane' : 'lanes'} spoiled`
  return `${someOf(kinds, 4)}${where}${spoiled}`
}

const WRONG: Readonly<Record<Damage['kind'], string>> = {
  die: 'its die',
  joints: 'its joints',
  'command-joints': 'its command joints',
  corridor: 'a track',
  rail: 'a rail',
  'rail-branch': 'a branch of a rail',
  'power-stage': 'the stage itself',
  core: 'the core itself',
  'core-patch': 'joints under it',
  spill: 'what was spilled under it',
  'unreported-spill': 'what was spilled under it',
  slip: 'what the tool hit',
}

function inPlaceWords(model: BoardModel, { kind, at }: Damage): string {
  if (kind === 'rail' || kind === 'rail-branch') return sentenceCase(at)
  if (model.laneById.has(at)) return `The track of lane ${at}`
  return model.partByRef.has(at) ? `Small part ${at}` : sentenceCase(at)
}
