/** Waiting for what is to be seen, and no longer. */
import { vi } from 'vitest'
import { PATIENT_MS } from './patience.ts'

const LOOK_AGAIN_MS = 30

/** Until something holds: looked at only after what is under way in the page has gone on, so that it is not the state before. */
export async function waitUntil(holds: () => boolean | Promise<boolean>, withinMs = PATIENT_MS): Promise<void> {
  const end = performance.now() + withinMs
  await pause(0)
  while (!(await holds())) {
    if (performance.now() > end) throw new Error(`waited ${withinMs} ms in vain for ${holds.toString()}`)
    await pause(LOOK_AGAIN_MS)
  }
}

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms))

/** Until expectations hold; what failed last is thrown when they never do. */
export const sees = <T>(expectations: () => T | Promise<T>): Promise<T> =>
  vi.waitFor(expectations, { timeout: PATIENT_MS, interval: LOOK_AGAIN_MS })
