/** What each station is for, what is entered there, and what comes of it: three short lists, in words of the bench. */
import type { Station } from '../../case/index.ts'

export interface StationHelp {
  /** In one sentence. */
  readonly purpose: string
  readonly enter: readonly string[]
  readonly get: readonly string[]
}

export const stationHelp: Readonly<Record<Station, StationHelp>> = {
  arrival: {
    purpose: 'Take the card in before anything is heated or powered.',
    enter: [
      'What the card does and does not do',
      'What happened to it, and how it hung then',
      'Whose it is, and what was agreed',
    ],
    get: ['The kind of accident counts at Suspects', 'A slip for the owner, with a code that finds the case again'],
  },
  'cold-measuring': {
    purpose: 'Measure with the card unplugged, and see whether anything speaks against power.',
    enter: [
      'Ohms or diode mode of each rail and stage, as the meter shows it',
      'Whether leads were zeroed',
      'Where a shorted rail drops in millivolts',
    ],
    get: [
      'In range, low or short, with the reason',
      'Whether a reading says don’t power it',
      'Where a short most likely sits',
    ],
  },
  'powered-measuring': {
    purpose: 'Log the first power-up, and what the card does under power.',
    enter: [
      'Volts of each rail, and the order in which they come up',
      'Whether the PC detects it, and each display output',
      'Current limit of the supply',
    ],
    get: ['The first rail that is missing', 'Readings count at Suspects'],
  },
  'memory-run': {
    purpose: 'Read the report of a memory test.',
    enter: [
      'Drop any text report, or fill in the table',
      'Say Right or Wrong where the reading is not sure',
      'What foreign names mean, once per board',
    ],
    get: ['Errors per package, channel, lane and bit', 'What was not tested stays untested'],
  },
  inspection: {
    purpose: 'Put on the sheet what the eye and the microscope find.',
    enter: [
      'Photos, matched to the board by four points',
      'Residue, corrosion, damage and clean spots',
      'Tracks and parts that a tool hit',
    ],
    get: ['What was seen counts for and against each story'],
  },
  spill: {
    purpose: 'Say where something landed, and see how far it got.',
    enter: [
      'The place, and how sure it is',
      'Which substance, how much, how it got there',
      'Dams and walls that kept it back',
    ],
    get: ['Rings of how far it spread, also under bodies', 'The chance that it reached each part'],
  },
  suspects: {
    purpose: 'See what explains the failures, and what to do first.',
    enter: ['Checks that you made, and what they found', 'Prices and priors of your shop, if they differ'],
    get: [
      'Stories with their chances',
      'The parts to lift, each with its remedy and reason',
      'What to do first, and what then depends on what you see',
    ],
  },
  plan: {
    purpose: 'Do the work in an order that harms the neighbours least.',
    enter: ['Done, failed or skipped, step by step', 'What lay under a part', 'What your hot air and preheater can do'],
    get: ['Steps with heat, minutes and cautions', 'Materials, other orders, money and the chance that it works'],
  },
  proof: {
    purpose: 'Show that it is fixed, and how sure that is.',
    enter: ['The runs after the work', 'Error-free runs, hours, temperatures'],
    get: ['What is gone, what is new, what is untested', 'How often it could still fail, at most'],
  },
  'hand-back': {
    purpose: 'Close the case: outcome, price, advice and papers.',
    enter: ['How it ended, and what had been wrong', 'What was charged', 'Advice to the owner'],
    get: ['A page for the owner and a record for you', 'Closed cases teach the shop’s own figures'],
  },
}

/** Keys that work everywhere, beside those of the stations. */
export const keyHelp: readonly (readonly [string, string])[] = [
  ['1 to 9, 0', 'go to a station'],
  ['/', 'find a part, rail, lane or net'],
  ['C', 'all cases'],
  ['Ctrl Z, Ctrl Shift Z', 'undo, redo'],
  ['+, −, F', 'zoom in, zoom out, fit the board'],
  ['V, S, M, D, N, R', 'select, spill, mark, dam, note, distance'],
  ['L', 'keep the tool in the hand'],
  ['[, ]', 'smaller or larger brush'],
  ['Escape', 'put the tool down'],
  ['?', 'this help'],
]
