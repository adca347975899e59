/** Going to a station: its panel opens at the top and takes the focus, so that reading and typing go on from there. */
import type { Desk } from '../stores/desk.ts'
import type { ScreenState } from '../stores/screenStore.ts'
import type { Station } from '../../case/index.ts'

/** Ids of what takes the focus from afar. */
export const PANEL_ID = 'why-panel'
export const FIND_BOX_ID = 'find-box'

/** @param goneTo what is to be done there next: it stands open */
export function goToStation(desk: Desk, station: Station, goneTo?: ScreenState['goneTo']): void {
  // a note about a file has been read by then, and would lie over the next station
  desk.screen.setState(({ message }) => ({
    station,
    goneTo,
    selection: undefined,
    message: message?.tone === 'note' ? undefined : message,
  }))
  requestAnimationFrame(focusPanel)
}

/** The heading takes the focus; where the form has still to be loaded, as soon as it is there. */
function focusPanel(): void {
  const panel = document.getElementById(PANEL_ID)
  if (panel === null || focusHeading(panel)) return
  const watch = new MutationObserver(() => focusHeading(panel) && watch.disconnect())
  watch.observe(panel, { childList: true, subtree: true })
}

function focusHeading(panel: HTMLElement): boolean {
  // the lift list below a form that is still being loaded is not what was gone to
  const heading = [...panel.querySelectorAll('h2')].find((each) => each.closest('[data-beside-form]') === null)
  if (heading === undefined) return false
  panel.scrollTop = 0
  heading.tabIndex = -1
  heading.focus({ preventScroll: true })
  return true
}
