/** How long tests wait for what they want to see: far longer than it ever takes, so that a busy machine fails none. */

/** For one thing to be seen. */
export const PATIENT_MS = 60_000
/** For a test, which waits for several; it gives up later than each, so that what was waited for in vain is said. */
export const TEST_MS = 240_000
