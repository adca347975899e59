/** Which case to open at the next start: this tab's own after a reload, else the last one that any tab opened. */
import type { Desk } from '../stores/desk.ts'

const KEY = 'liftmap open case'

export async function rememberOpen(desk: Desk, id: string): Promise<void> {
  try {
    sessionStorage.setItem(KEY, id)
  } catch {
    // without it the last one of any tab opens
  }
  await desk.caseShelf.setLastOpen(id)
}

export async function lastOpen(desk: Desk): Promise<string | undefined> {
  try {
    const ofTab = sessionStorage.getItem(KEY)
    if (ofTab !== null) return ofTab
  } catch {
    // as above
  }
  const last = await desk.caseShelf.lastOpen()
  return last.ok ? last.value : undefined
}
