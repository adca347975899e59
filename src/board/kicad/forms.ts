/** S-expression forms: `(name item item …)` where an item is a text or another form. */

export interface Form {
  readonly name: string
  /** Line of the file on which the form opens, counted from 1. */
  readonly line: number
  readonly items: readonly Item[]
}
export type Item = string | Form

/** The first form of that name among the items, or undefined. */
export function child(form: Form, name: string): Form | undefined {
  for (const item of form.items) if (typeof item !== 'string' && item.name === name) return item
  return undefined
}

/** All forms among the items that bear one of the names. */
export function children(form: Form, ...names: readonly string[]): Form[] {
  return form.items.filter((item): item is Form => typeof item !== 'string' && names.includes(item.name))
}

/** The n-th item if it is a text, or undefined. */
export function textAt(form: Form | undefined, index: number): string | undefined {
  const item = form?.items[index]
  return typeof item === 'string' ? item : undefined
}

/** The n-th item as a finite number, or undefined. */
export function numberAt(form: Form | undefined, index: number): number | undefined {
  const text = textAt(form, index)
  if (text === undefined || text === '') return undefined
  const value = Number(text)
  return Number.isFinite(value) ? value : undefined
}
