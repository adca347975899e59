/** A small cache: keeps the few things that were used last. */

export interface Shelf<T> {
  get(key: string, make: () => T): T
  /** What is kept under the key, if anything. */
  peek(key: string): T | undefined
}

/**
 * An empty cache of at most `most` things. What was asked for longest ago goes first; a value of undefined is never
 * kept as found.
 */
export function createShelf<T>(most: number): Shelf<T> {
  const kept = new Map<string, T>()
  return {
    peek: (key) => kept.get(key),
    get: (key, make) => {
      const found = kept.get(key) ?? make()
      kept.delete(key)
      kept.set(key, found)
      for (const oldest of kept.keys()) {
        if (kept.size <= most) break
        kept.delete(oldest)
      }
      return found
    },
  }
}
