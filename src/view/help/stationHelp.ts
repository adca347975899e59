/** What each station is for, what is entered there, and what comes of it: three short lists, in words of the bench. */
import { say } from '../../base/index.ts'
import type { Station } from '../../case/index.ts'

export interface StationHelp {
  /** In one sentence. */
  readonly purpose: string
  readonly enter: readonly string[]
  readonly get: readonly string[]
}

export const stationHelp: Readonly<Record<Station, StationHelp>> = {
  arrival: {
    purpose: say('Take the card in before anything is heated or powered.'),
    enter: [
      say('What the card does and does not do'),
      say('What happened to it, and how it hung then'),
      say('Whose it is, and what was agreed'),
    ],
    get: [
      say('The kind of accident counts at Suspects'),
      say('A slip for the owner, with a code that finds the case again'),
    ],
  },
  'cold-measuring': {
    purpose: say('Measure with the card unplugged, and see whether anything speaks against power.'),
    enter: [
      say('Ohms or diode mode of each rail and stage, as the meter shows it'),
      say('Whether leads were zeroed'),
      say('Where a shorted rail drops in millivolts'),
    ],
    get: [
      say('In range, low or short, with the reason'),
      say('Whether a reading says don’t power it'),
      say('Where a short most likely sits'),
    ],
  },
  'powered-measuring': {
    purpose: say('Log the first power-up, and what the card does under power.'),
    enter: [
      say('Volts of each rail, and the order in which they come up'),
      say('Whether the PC detects it, and each display output'),
      say('Current limit of the supply'),
    ],
    get: [say('The first rail that is missing'), say('Readings count at Suspects')],
  },
  'memory-run': {
    purpose: say('Read the report of a memory test.'),
    enter: [
      say('Drop any text report, or fill in the table'),
      say('Say Right or Wrong where the reading is not sure'),
      say('What foreign names mean, once per board'),
    ],
    get: [say('Errors per package, channel, lane and bit'), say('What was not tested stays untested')],
  },
  inspection: {
    purpose: say('Put on the sheet what the eye and the microscope find.'),
    enter: [
      say('Photos, matched to the board by four points'),
      say('Residue, corrosion, damage and clean spots'),
      say('Tracks and parts that a tool hit'),
    ],
    get: [say('What was seen counts for and against each story')],
  },
  spill: {
    purpose: say('Say where something landed, and see how far it got.'),
    enter: [
      say('The place, and how sure it is'),
      say('Which substance, how much, how it got there'),
      say('Dams and walls that kept it back'),
    ],
    get: [say('Rings of how far it spread, also under bodies'), say('The chance that it reached each part')],
  },
  suspects: {
    purpose: say('See what explains the failures, and what to do first.'),
    enter: [
      say('Checks that you made, and what they found'),
      say('Your shop’s prices, and how often you see each fault'),
    ],
    get: [
      say('Stories with their chances'),
      say('The parts to lift, each with its remedy and reason'),
      say('What to do first, and what then depends on what you see'),
    ],
  },
  plan: {
    purpose: say('Do the work in an order that harms the neighbours least.'),
    enter: [
      say('Done, failed or skipped, step by step'),
      say('What lay under a part'),
      say('What your hot air and preheater can do'),
    ],
    get: [
      say('Steps with heat, minutes and cautions'),
      say('Materials, other orders, money and the chance that it works'),
    ],
  },
  proof: {
    purpose: say('Show that it is fixed, and how sure that is.'),
    enter: [say('The runs after the work'), say('Error-free runs, hours, temperatures')],
    get: [say('What is gone, what is new, what is untested'), say('How often it could still fail, at most')],
  },
  'hand-back': {
    purpose: say('Close the case: outcome, price, advice and papers.'),
    enter: [say('How it ended, and what had been wrong'), say('What was charged'), say('Advice to the owner')],
    get: [say('A page for the owner and a record for you'), say('Closed cases teach the shop’s own figures')],
  },
}

/** Keys that work everywhere, beside those of the stations. */
export const keyHelp: readonly (readonly [string, string])[] = [
  [say('1 to 9, 0'), say('go to a station')],
  ['/', say('find a part, rail, lane or net')],
  ['C', say('all cases')],
  [say('Ctrl Z, Ctrl Shift Z'), say('undo, redo')],
  ['+, −, F', say('zoom in, zoom out, fit the board')],
  ['V, S, M, D, N, R', say('select, spill, mark, dam, note, distance')],
  ['L', say('keep the tool in the hand')],
  ['[, ]', say('smaller or larger brush')],
  [say('Escape'), say('put the tool down')],
  ['?', say('this help')],
]
