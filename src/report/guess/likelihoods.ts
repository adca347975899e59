/** What must be true of a memory report, as figures with their reasons: the evidence by which readings are weighed. */

interface Figure {
  readonly value: number
  readonly why: string
}

/** Beyond these limits a reading is asked about. Stated assumptions, `common practice, no source` where no reason is arithmetic. */
import { say } from '../../base/index.ts'
import type { Layout } from '../recipe.ts'
export const LIMITS = {
  strangers: {
    value: 0.02,
    why: say('A report of this board names parts of this board; one in fifty may be a misprint.'),
  },
  evenly: {
    value: 3,
    why: say(
      'Faults are local: when every place has errors and none has three times those of another, the column is another quantity, or the whole card fails and should be looked at.',
    ),
  },
  outside: { value: 0.01, why: say('An address that a test of this card wrote lies in its memory.') },
  noDifference: {
    value: 0.02,
    why: say('A row of errors tells a difference between what was written and what was read.'),
  },
  unaligned: {
    value: 0.05,
    why: say('Words of 32 bits stand at multiples of 4: of random numbers three in four do not.'),
  },
  repeated: {
    value: 0.05,
    why: say(
      'An address column changes from row to row; one that repeats in nineteen rows of twenty is a pattern or a parameter.',
    ),
  },
  fair: {
    value: 0.4,
    why: say(
      'Addresses drawn without regard to channels hit each about equally often; those of a fault in some channels do not.',
    ),
  },
  rival: {
    value: 0.8,
    why: say('A second reading that explains nearly as much and blames other lanes is a question for the user.'),
  },
  prose: {
    value: 0.2,
    why: say(
      'Rows of one table begin alike: where few begin with a word, those are remarks that happen to hold numbers.',
    ),
  },
  alike: {
    value: 0.6,
    why: say('Records of one kind have the same lines; words of hexadecimal letters make a few look different.'),
  },
  oddLines: {
    value: 0,
    why: say('A line that looks like a row, or names a part, is read or asked about, never dropped.'),
  },
} as const satisfies Record<string, Figure>

/** By how much a reading is the likelier for how its cells are told apart: marks that somebody put there on purpose first. */
export const LAYOUT_WEIGHTS = {
  json: 1.2,
  delimited: 1.1,
  pattern: 1.07,
  spaced: 1.05,
  fixed: 1,
  pairs: 1.06,
  named: 1,
} as const satisfies Record<Layout['kind'], number>
