/** From station to station of the built application by its keys, waiting until each is there. */
import type { Page } from 'playwright'

/** Their keys, in their order. */
export const STATION_KEYS = ['1', '2', '3', '4', '5', '6', '7', '8', '9', '0']

/** The heading of a station that was left may still have the focus: it counts once the list names the new one. */
export async function goToStationOfKey(page: Page, key: string): Promise<void> {
  await page.keyboard.press(key)
  await page.locator(`[aria-current="step"][aria-keyshortcuts="${key}"]`).waitFor({ state: 'attached' })
  await page.locator('h2:focus').waitFor()
}
