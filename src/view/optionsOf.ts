/** The kinds of data as choices of a field. */

/** Each value with its words, in the order of the values. */
export const optionsOf = <T extends string>(
  values: readonly T[],
  words: Readonly<Record<T, string>>,
): readonly { readonly value: T; readonly words: string }[] => values.map((value) => ({ value, words: words[value] }))
