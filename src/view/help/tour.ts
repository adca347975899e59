/** The tour of the demo card: which station it stands at, and what is said there. Ends by beginning a case of one's own. */
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
    title: 'A card comes in',
    words: 'A cooling loop leaked onto it. What the owner says stands here, before any heat or power.',
  },
  {
    station: 'cold-measuring',
    title: 'Is it safe to power?',
    words:
      'Each reading stands beside its range. The verdict says what speaks against power, never that it is harmless.',
  },
  {
    station: 'memory-run',
    title: 'What fails',
    words:
      'The report of a memory test, sorted by package, channel, lane and bit. Hatching on the sheet shows how much.',
  },
  {
    station: 'spill',
    title: 'Where it went',
    words: 'Drag the blue point. Rings, chances and the lift list follow your hand.',
  },
  {
    station: 'suspects',
    title: 'What explains it',
    words: 'Parts to lift with their reasons, what to do first, and the stories behind it.',
  },
  {
    station: 'plan',
    title: 'In which order',
    words: 'Wash, test, lift, clean, refit: one line a step, with heat, minutes and cautions. Press Done as you go.',
  },
  {
    station: 'proof',
    title: 'Is it fixed?',
    words: 'Add the runs after the work here. It says how sure you can be.',
  },
  {
    station: 'hand-back',
    title: 'Back to its owner',
    words: 'Outcome, price, advice, and a page to print. Your turn: begin a case of your own.',
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
