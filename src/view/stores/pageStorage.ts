/** What this browser keeps for the page beside its database; it may keep nothing. */

/** Some browsers throw already when it is named, where a page may store nothing. */
export function pageStorage(): Storage | undefined {
  try {
    return globalThis.localStorage
  } catch {
    return undefined
  }
}
