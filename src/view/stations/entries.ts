/** The ten stations, each by its entry: the one place that knows all of them. */
import { type Station, stations } from '../../case/index.ts'
import type { ScreenState } from '../stores/screenStore.ts'
import type { Overlays } from '../sheet/index.ts'
import { arrival } from './arrival/index.ts'
import type { Held, Known, StationEntry } from './entry.ts'
import { handBack } from './hand-back/index.ts'
import { inspection } from './inspection/index.ts'
import { coldMeasuring, poweredMeasuring } from './measuring/index.ts'
import { memoryRun } from './memory-run/index.ts'
import { plan } from './plan/index.ts'
import { proof } from './proof/index.ts'
import { spill } from './spill/index.ts'
import { suspects } from './suspects/index.ts'

export const entries: Readonly<Record<Station, StationEntry>> = {
  arrival,
  'cold-measuring': coldMeasuring,
  'powered-measuring': poweredMeasuring,
  'memory-run': memoryRun,
  inspection,
  spill,
  suspects,
  plan,
  proof,
  'hand-back': handBack,
}

export interface StationState extends Held {
  readonly station: Station
  readonly name: string
}

/** What each station holds and still lacks, in the order of the visit. */
export const stationStates = (known: Known): StationState[] =>
  stations.map((station) => ({ station, name: entries[station].name, ...entries[station].state(known) }))

/** The station of a key; undefined where none has it. */
export const stationOfKey = (key: string): Station | undefined =>
  stations.find((station) => entries[station].key === key)

/** What is drawn at the station that is shown. */
export function shownOverlays({ station, switched }: Pick<ScreenState, 'station' | 'switched'>): Overlays {
  const { id, shown } = entries[station].overlays
  return switched[id] ?? shown
}

/** Switches one thing that is drawn at a station. */
export function switchOverlay(screen: ScreenState, name: keyof Overlays): Pick<ScreenState, 'switched'> {
  const shown = shownOverlays(screen)
  const { id } = entries[screen.station].overlays
  return { switched: { ...screen.switched, [id]: { ...shown, [name]: shown[name] !== true } } }
}

/** Loads the forms of all stations, so that each is there at once when it is gone to. */
export const loadForms = async (): Promise<void> => {
  await Promise.all(stations.map((station) => entries[station].Form.load()))
}
