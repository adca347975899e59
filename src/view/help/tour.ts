/** The tour of the demo card: which station it stands at, and what is said there. Ends by beginning a case of one's own. */
import { say } from '../../base/index.ts'
import type { Station } from '../../case/index.ts'
import { goToStation } from '../actions/goToStation.ts'
import { MESSAGE_CORNER } from '../actions/messages.ts'
import { openDemo } from '../actions/open.ts'
import { closePage } from '../actions/pages.ts'
import type { Desk } from '../stores/desk.ts'

export interface TourStop {
  readonly station: Station
  readonly title: string
  readonly words: string
}

export const tourStops: readonly TourStop[] = [
  {
    station: 'arrival',
    title: say('A card comes in'),
    words: say('A cooling loop leaked onto it. What the owner says stands here, before any heat or power.'),
  },
  {
    station: 'cold-measuring',
    title: say('Is it safe to power?'),
    words: say(
      'Each reading stands beside its range. The verdict says what speaks against power, never that it is harmless.',
    ),
  },
  {
    station: 'memory-run',
    title: say('What fails'),
    words: say(
      'The report of a memory test, sorted by package, channel, lane and bit. Hatching on the sheet shows how much.',
    ),
  },
  {
    station: 'spill',
    title: say('Where it went'),
    words: say('Drag the blue point. Rings, chances and the lift list follow your hand.'),
  },
  {
    station: 'suspects',
    title: say('What explains it'),
    words: say('Parts to lift with their reasons, what to do first, and the stories behind it.'),
  },
  {
    station: 'plan',
    title: say('In which order'),
    words: say(
      'Wash, test, lift, clean, refit: one line a step, with heat, minutes and cautions. Press Done as you go.',
    ),
  },
  {
    station: 'proof',
    title: say('Is it fixed?'),
    words: say('Add the runs after the work here. It says how sure you can be.'),
  },
  {
    station: 'hand-back',
    title: say('Back to its owner'),
    words: say('Outcome, price, advice, and a page to print. Your turn: begin a case of your own.'),
  },
]

/** The demo is opened first where another case lies on the desk; that one is kept. */
export async function beginTour(desk: Desk): Promise<void> {
  closePage(desk)
  const [first] = desk.shelf.cases
  const present = desk.cases.getState().history?.present
  if (first !== undefined && present?.demo !== true) await openDemo(desk, first.name, MESSAGE_CORNER)
  goToStop(desk, 0)
}

export function goToStop(desk: Desk, stop: number): void {
  const there = tourStops[stop]
  if (there === undefined) return endTour(desk)
  desk.screen.setState({ tourStop: stop })
  goToStation(desk, there.station)
}

export const endTour = (desk: Desk): void => desk.screen.setState({ tourStop: undefined })
