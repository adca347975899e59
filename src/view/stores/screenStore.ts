/** What the screen shows and what the hand holds: station, selection, tool, overlays, theme, messages. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { Fault, Point } from '../../base/index.ts'
import type { Side } from '../../board/index.ts'
import type { Station } from '../../case/index.ts'
import type { Progress } from '../../workers/envelope.ts'
import type { ThemeName } from '../look/index.ts'
import type { NameShare } from './naming.ts'
import type { PageName } from './pageNames.ts'
import type { Overlays, Painting, Selection, Tool } from '../sheet/index.ts'

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
  /** What was gone to within the station: it stands open there. */
  readonly goneTo?: 'quote' | undefined
  readonly selection: Selection | undefined
  readonly hovered: Selection | undefined
  readonly tool: Tool
  /** How areas are painted. */
  readonly painting: Painting
  /** What is drawn where somebody switched it, by the id of the stations' set. */
  readonly switched: Readonly<Record<string, Overlays>>
  /** Chosen by hand; undefined follows the system. */
  readonly chosenTheme: ThemeName | undefined
  readonly systemTheme: ThemeName
  readonly message: FileMessage | undefined
  readonly busy: Busy | undefined
  readonly demoNoteOpen: boolean
  readonly casesOpen: boolean
  /** A camera looks for the code of a slip, above the list of cases. */
  readonly scanOpen: boolean
  /** The dialog that asks which card a new case is about. */
  readonly startOpen: boolean
  /** The page that fills the window in place of the stations; undefined while the case is shown. */
  readonly page: PageName | undefined
  /** Where the tour of the demo stands; undefined while there is none. */
  readonly tourStop: number | undefined
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
    switched: {},
    chosenTheme: undefined,
    systemTheme: 'paper',
    message: undefined,
    busy: undefined,
    demoNoteOpen: true,
    casesOpen: false,
    scanOpen: false,
    startOpen: false,
    page: undefined,
    tourStop: undefined,
    notices: [],
    naming: { closed: [] },
    pointer: undefined,
  }))

export const shownTheme = (screen: ScreenState): ThemeName => screen.chosenTheme ?? screen.systemTheme
