/** Shipped figures with the few that somebody changed. */

/** A copy of `base` in which every value that `over` names, and gives, stands for the shipped one. */
export function merged<T extends object>(base: T, over: { [K in keyof T]?: T[K] | undefined } | undefined): T {
  const result = { ...base }
  for (const key in over) {
    const value = over[key]
    if (value !== undefined) result[key] = value
  }
  return result
}
