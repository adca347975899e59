/** The kinds of verdict that a reading can get, in one table: word and shape, so that no colour is needed, and what each says. */
import { say } from '../base/index.ts'

export const verdictKinds = [
  'not-measured',
  'short',
  'low',
  'below',
  'in-range',
  'above',
  'open',
  'alike',
  'unlike-low',
  'unlike-high',
  'apart',
  'usual',
  'unusual',
  'no-voltage',
  'below-zero',
  'no-range',
] as const
export type VerdictKind = (typeof verdictKinds)[number]

/** Names of shapes; the screen has a drawing for each. */
export type VerdictShape =
  | 'ring'
  | 'cross'
  | 'far-down'
  | 'down'
  | 'tick'
  | 'up'
  | 'gap'
  | 'unequal'
  | 'wave'
  | 'question'

/** `good` and `plain` ask for no second look. */
export type VerdictTone = 'bad' | 'doubt' | 'good' | 'plain'

export interface Verdict {
  readonly kind: VerdictKind
  readonly word: string
  readonly shape: VerdictShape
  readonly tone: VerdictTone
  /** What was held against what. */
  readonly sentence: string
}

/** `against` makes power not safe, `unknown` not known; a `note` changes nothing. */
export type PowerWeight = 'against' | 'unknown' | 'note'

/**
 * Where a cold reading was taken, as far as it matters for power. A short between input and rail, or of a driver's supply,
 * forbids power (`feed`). A `pin` that is off leaves a stage standing still: it is looked into first, but burns nothing.
 * What is at the `switch` node is read at its rail. `diode` mode never forbids by itself: only ohms say how low a line is.
 */
export type PowerPlace = 'rail' | 'feed' | 'pin' | 'switch' | 'diode'

interface KindOfVerdict {
  readonly word: string
  readonly shape: VerdictShape
  readonly tone: VerdictTone
  /** What it says to the stories about the line; a hint says nothing. */
  readonly says?: 'low' | 'open' | 'fine'
  /** Of a cold reading; a place that is left out has nothing to say about power. */
  readonly power?: Readonly<Partial<Record<PowerPlace, PowerWeight>>>
}

/** What reads high or open at a stage can't be made worse by power. */
const NOTE_AT_STAGE = { feed: 'note', pin: 'note', switch: 'note', diode: 'note' } as const

const KINDS: Readonly<Record<VerdictKind, KindOfVerdict>> = {
  'not-measured': { word: say('not measured'), shape: 'ring', tone: 'plain' },
  short: {
    word: say('short'),
    shape: 'cross',
    tone: 'bad',
    says: 'low',
    power: { rail: 'against', feed: 'against', pin: 'unknown', switch: 'against', diode: 'unknown' },
  },
  low: {
    word: say('far below'),
    shape: 'far-down',
    tone: 'bad',
    says: 'low',
    power: { rail: 'against', feed: 'against', pin: 'unknown', switch: 'unknown', diode: 'unknown' },
  },
  below: {
    word: say('below the range'),
    shape: 'down',
    tone: 'bad',
    says: 'low',
    power: { rail: 'unknown', feed: 'unknown', pin: 'unknown', switch: 'note', diode: 'unknown' },
  },
  'in-range': { word: say('in range'), shape: 'tick', tone: 'good', says: 'fine' },
  above: {
    word: say('above the range'),
    shape: 'up',
    tone: 'doubt',
    says: 'fine',
    power: { rail: 'note', ...NOTE_AT_STAGE },
  },
  open: { word: say('open'), shape: 'gap', tone: 'doubt', says: 'open', power: { rail: 'unknown', ...NOTE_AT_STAGE } },
  alike: { word: say('like its siblings'), shape: 'tick', tone: 'good', says: 'fine' },
  'unlike-low': {
    word: say('below its siblings'),
    shape: 'unequal',
    tone: 'bad',
    says: 'low',
    power: { rail: 'unknown', feed: 'unknown', pin: 'unknown', switch: 'note', diode: 'unknown' },
  },
  'unlike-high': { word: say('above its siblings'), shape: 'unequal', tone: 'doubt', power: NOTE_AT_STAGE },
  apart: {
    word: say('siblings disagree'),
    shape: 'unequal',
    tone: 'doubt',
    power: { feed: 'unknown', pin: 'unknown', switch: 'note', diode: 'unknown' },
  },
  usual: { word: say('as is usual'), shape: 'wave', tone: 'plain' },
  unusual: {
    word: say('not as usual'),
    shape: 'wave',
    tone: 'doubt',
    power: { rail: 'unknown', feed: 'unknown', pin: 'unknown', switch: 'unknown', diode: 'note' },
  },
  'no-voltage': { word: say('no voltage'), shape: 'cross', tone: 'bad' },
  'below-zero': { word: say('below zero'), shape: 'question', tone: 'doubt' },
  'no-range': { word: say('no reference'), shape: 'question', tone: 'plain', power: { rail: 'unknown' } },
}

/** A verdict with the word, shape and tone that its kind has in the table; the sentence is the caller's. */
export function verdictOf(kind: VerdictKind, sentence: string): Verdict {
  const { word, shape, tone } = KINDS[kind]
  return { kind, word, shape, tone, sentence }
}

/** Undefined where a verdict says nothing about the line. */
export const saysOf = (kind: VerdictKind): KindOfVerdict['says'] => KINDS[kind].says

/** Of a cold reading; undefined where it says nothing about power. */
export const powerWeightOf = (kind: VerdictKind, place: PowerPlace): PowerWeight | undefined =>
  KINDS[kind].power?.[place]
