/** Going to a station: its panel opens at the top and takes the focus, so that reading and typing go on from there. */
import type { Desk } from '../stores/desk.ts'
import { type Station, stations } from '../stores/screenStore.ts'

export const PANEL_ID = 'why-panel'

/** From the first to the tenth. */
const KEYS = ['1', '2', '3', '4', '5', '6', '7', '8', '9', '0'] as const

export const keyOfStation = (station: Station): string => KEYS[stations.indexOf(station)] ?? ''

export function goToStation(desk: Desk, station: Station): void {
  desk.screen.setState({ station, selection: undefined })
  requestAnimationFrame(focusPanel)
}

/** @returns whether the key stands for a station */
export function pressStationKey(desk: Desk, key: string): boolean {
  const station = stations[KEYS.findIndex((each) => each === key)]
  if (station === undefined || desk.cases.getState().history === undefined) return false
  goToStation(desk, station)
  return true
}

function focusPanel(): void {
  const panel = document.getElementById(PANEL_ID)
  const heading = panel?.querySelector('h2')
  if (panel === null || !(heading instanceof HTMLElement)) return
  panel.scrollTop = 0
  heading.tabIndex = -1
  heading.focus({ preventScroll: true })
}
