/** What the app does when it starts: follows the system's theme, listens for keys, watches for assessments, opens the demo. */
import type { Desk } from './stores/desk.ts'
import { watchForActs } from './actions/acts.ts'
import { watchForAssessment } from './actions/assess.ts'
import { showCases } from './actions/caseList.ts'
import { watchForLoss } from './actions/ledger.ts'
import { watchForNextChecks } from './stations/suspects/nextChecks.ts'
import { redoEdit, undoEdit } from './actions/edit.ts'
import { watchForFailure } from './actions/followFailure.ts'
import { holdName } from './stations/memory-run/names/naming.ts'
import { openPage } from './actions/pages.ts'
import { loadActions } from './actions/onDemand.ts'
import { openFirst } from './actions/openFirst.ts'
import { watchForSaving } from './actions/save.ts'
import { FIND_BOX_ID, goToStation } from './actions/goToStation.ts'
import { loadMessages } from './controls/FileMessages.tsx'
import { endTour } from './help/tour.ts'
import { loadOpenItems } from './header/OpenMenu.tsx'
import { loadForms, stationOfKey } from './stations/entries.ts'
import { pressToolKey, takeTool } from './actions/tools.ts'

/** @returns a function that ends all of it */
export function startApp(desk: Desk): () => void {
  const ends = [
    watchForSaving(desk),
    watchForLoss(desk),
    watchForAssessment(desk),
    watchForActs(desk),
    watchForFailure(desk),
    watchForNextChecks(desk),
    followSystemTheme(desk),
    listenForKeys(desk),
  ]
  const opened = desk.cases.getState().history === undefined ? openFirst(desk) : Promise.resolve()
  ends.push(watchTheRest(desk, opened), loadWhenIdle(opened))
  return () => {
    for (const end of ends) end()
  }
}

function followSystemTheme(desk: Desk): () => void {
  const dark = window.matchMedia('(prefers-color-scheme: dark)')
  const follow = (): void => desk.screen.setState({ systemTheme: dark.matches ? 'chalk' : 'paper' })
  follow()
  dark.addEventListener('change', follow)
  return () => dark.removeEventListener('change', follow)
}

/** A case that was opened is drawn in the next frame. */
const DRAWN_BY_MS = 100

/** What nothing waits for at the first drawing is loaded after it; each of it looks at what holds when it begins. */
function watchTheRest(desk: Desk, opened: Promise<void>): () => void {
  let ended = false
  let end = (): void => undefined
  const begin = async (): Promise<void> => {
    const { watchLater } = await import('./watchLater.ts')
    if (!ended) end = watchLater(desk)
  }
  void opened.finally(() => setTimeout(() => void begin(), DRAWN_BY_MS))
  return () => {
    ended = true
    end()
  }
}

const AFTER_FIRST_DRAWING_MS = 1500

/** After the first drawing, so that it waits for no form but its own; what is loaded then is there at once when it is asked for. */
function loadWhenIdle(opened: Promise<void>): () => void {
  let asked: ReturnType<typeof setTimeout> | undefined
  let ended = false
  const load = (): Promise<unknown> => Promise.all([loadForms(), loadActions(), loadOpenItems(), loadMessages()])
  void opened.finally(() => {
    if (!ended) asked = setTimeout(() => void load(), AFTER_FIRST_DRAWING_MS)
  })
  return () => {
    ended = true
    clearTimeout(asked)
  }
}

function listenForKeys(desk: Desk): () => void {
  const onKey = (event: KeyboardEvent): void => {
    const { casesOpen, startOpen, page } = desk.screen.getState()
    if (event.defaultPrevented || casesOpen || startOpen || page !== undefined) return
    const command = event.ctrlKey || event.metaKey
    if (command && event.key.toLowerCase() === 'z' && !isTyping(event.target)) {
      event.preventDefault()
      if (event.shiftKey) redoEdit(desk)
      else undoEdit(desk)
      return
    }
    if (command || event.altKey) return
    if (isTyping(event.target)) return leaveField(event)
    if (pressStationKey(desk, event.key)) event.preventDefault()
    else if (event.key === '/') {
      event.preventDefault()
      document.getElementById(FIND_BOX_ID)?.focus()
    } else if (event.key.toLowerCase() === 'c') {
      event.preventDefault()
      showCases(desk)
    } else if (event.key === '?') {
      event.preventDefault()
      openPage(desk, 'help')
    } else if (pressToolKey(desk, event.key)) event.preventDefault()
    else if (event.key === 'Escape') letGo(desk)
  }
  window.addEventListener('keydown', onKey)
  return () => window.removeEventListener('keydown', onKey)
}

/** @returns whether the key stands for a station */
function pressStationKey(desk: Desk, key: string): boolean {
  const station = stationOfKey(key)
  if (station === undefined || desk.cases.getState().history === undefined) return false
  goToStation(desk, station)
  return true
}

/** Escape lets go of a field, so that the keys of the stations work again; Tab goes on from there. */
function leaveField({ key, target }: KeyboardEvent): void {
  if (key === 'Escape' && target instanceof HTMLElement) target.blur()
}

/** First the name in the hand, then the tool, the tour, and what is selected. */
function letGo(desk: Desk): void {
  if (desk.screen.getState().naming.held !== undefined) holdName(desk, undefined)
  else if (desk.screen.getState().tool !== 'select') takeTool(desk, 'select')
  else if (desk.screen.getState().tourStop !== undefined) endTour(desk)
  else desk.screen.setState({ selection: undefined })
}

const isTyping = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement &&
  (target.isContentEditable ||
    target.matches('textarea, select, input:not([type="radio"], [type="checkbox"], [type="range"])'))
