/** What the screen shows and what the hand holds: station, selection, tool, overlays, theme, messages. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { Fault, Point } from '../../base/index.ts'
import type { Side } from '../../board/index.ts'
import { type Station, stations } from '../../case/index.ts'
import type { Progress } from '../../workers/envelope.ts'
import type { ThemeName } from '../look/index.ts'
import type { NameShare } from './naming.ts'
import type { PageName } from '../pages/names.ts'
import type { Overlays, Painting, Selection, Tool } from '../sheet/index.ts'

export { type Station, stations }

/** Something to say about a file, at the place where it was dropped. */
export interface FileMessage {
  readonly at: Point
  readonly tone: 'fault' | 'note'
  readonly title: string
  readonly faults: readonly Fault[]
  readonly lines: readonly string[]
}

export interface Busy {
  readonly words: string
  readonly progress: Progress | undefined
  readonly cancel: () => void
}

/** What was just done to a case, with the way back where there is one. */
export interface Notice {
  readonly id: number
  readonly words: string
  readonly undo?: () => Promise<void>
}

/** Names of a report on their way to their places. */
export interface NamingScreen {
  /** Id of a report whose names were asked for by hand, though all are told. */
  readonly report?: string | undefined
  /** Ids of reports whose names were put aside. */
  readonly closed: readonly string[]
  /** The name in the hand. */
  readonly held?: string | undefined
  /** Chosen by hand; else as the names make likely. */
  readonly share?: NameShare | undefined
  /** The pattern that is shown on the sheet, by its title. */
  readonly pattern?: string | undefined
  /** Ids of the lanes under the name in the hand. */
  readonly aimed?: readonly string[] | undefined
}

export interface ScreenState {
  readonly station: Station
  readonly selection: Selection | undefined
  readonly hovered: Selection | undefined
  readonly tool: Tool
  /** How areas are painted. */
  readonly painting: Painting
  readonly overlays: Overlays
  /** The same at the plan's station, which shows other things. */
  readonly planOverlays: Overlays
  /** And at that of cold measuring. */
  readonly coldOverlays: Overlays
  /** And at the station of the proof. */
  readonly proofOverlays: Overlays
  /** Chosen by hand; undefined follows the system. */
  readonly chosenTheme: ThemeName | undefined
  readonly systemTheme: ThemeName
  readonly message: FileMessage | undefined
  readonly busy: Busy | undefined
  readonly demoNoteOpen: boolean
  readonly casesOpen: boolean
  /** The dialog that asks which card a new case is about. */
  readonly startOpen: boolean
  /** The page that fills the window in place of the stations; undefined while the case is shown. */
  readonly page: PageName | undefined
  readonly notices: readonly Notice[]
  readonly naming: NamingScreen
  readonly pointer: { readonly at: Point; readonly side: Side } | undefined
}

export type ScreenStore = StoreApi<ScreenState>

export const createScreenStore = (): ScreenStore =>
  createStore<ScreenState>(() => ({
    station: 'suspects',
    selection: undefined,
    hovered: undefined,
    tool: 'select',
    painting: { manner: 'circle', brushMm: 2 },
    overlays: { errorLoad: true, reach: true, field: true, liftOrder: true, labels: true },
    planOverlays: {
      errorLoad: false,
      reach: false,
      field: false,
      liftOrder: false,
      labels: true,
      passes: true,
      heat: true,
    },
    coldOverlays: { errorLoad: false, reach: false, field: false, liftOrder: false, labels: true, short: true },
    proofOverlays: { errorLoad: true, reach: false, field: false, liftOrder: false, labels: true, proof: true },
    chosenTheme: undefined,
    systemTheme: 'paper',
    message: undefined,
    busy: undefined,
    demoNoteOpen: true,
    casesOpen: false,
    startOpen: false,
    page: undefined,
    notices: [],
    naming: { closed: [] },
    pointer: undefined,
  }))

/** Which of the sets of overlays a station shows and switches. */
export function overlaysOf(station: Station): 'overlays' | 'planOverlays' | 'proofOverlays' | 'coldOverlays' {
  if (station === 'plan') return 'planOverlays'
  if (station === 'proof') return 'proofOverlays'
  return station === 'cold-measuring' ? 'coldOverlays' : 'overlays'
}

export const shownOverlays = (screen: ScreenState): Overlays => screen[overlaysOf(screen.station)]

export const shownTheme = (screen: ScreenState): ThemeName => screen.chosenTheme ?? screen.systemTheme
