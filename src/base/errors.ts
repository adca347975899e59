/**
 * A fault is an error as a value: where it stands, what was found there, what was expected, and what to do.
 * Every border of Liftmap (files, workers, storage, command line) answers with a `Result`.
 */
import type { z } from 'zod'
import { say } from './message.ts'

export interface Fault {
  /** JSON path (`$.parts[3].at.x`), `line 12`, or the name of a file. */
  readonly path: string
  readonly found: string
  readonly expected: string
  /** One sentence: what the user can do about it. */
  readonly todo?: string
}

export type Result<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** A result that holds a value and no fault. */
export const good = <T>(value: T): Result<T> => ({ ok: true, value })

/** A refused result with every fault that was found, in the order in which they are told. */
export const bad = (...faults: readonly Fault[]): Result<never> => ({ ok: false, faults })

/** One sentence for people: `$.parts[3].side: found "left", expected top or bottom.` */
export function sayFault({ path, found, expected, todo }: Fault): string {
  const sentence = say('{path}: found {found}, expected {expected}.', { path, found, expected })
  return todo === undefined ? sentence : `${sentence} ${todo}`
}

const MAX_SHOWN_CHARACTERS = 60

/** A short text of any value, for the `found` of a fault: at most 60 characters, never throws. */
export function showValue(value: unknown): string {
  if (value === undefined) return say('nothing')
  if (typeof value === 'number' || typeof value === 'bigint') return String(value)
  if (typeof value === 'function' || typeof value === 'symbol') return typeof value
  if (Array.isArray(value)) return say('a list of {count}', { count: value.length })
  if (typeof value === 'object' && value !== null)
    return say('an object with {count} fields', { count: Object.keys(value).length })
  const text = JSON.stringify(value) ?? say('nothing')
  return text.length > MAX_SHOWN_CHARACTERS ? `${text.slice(0, MAX_SHOWN_CHARACTERS - 1)}…` : text
}

/** `['parts', 3, 'at']` becomes `$.parts[3].at`. */
export function jsonPath(steps: readonly PropertyKey[]): string {
  let path = '$'
  for (const step of steps) {
    if (typeof step === 'number') path += `[${step}]`
    else if (/^[A-Za-z_][A-Za-z0-9_]*$/.test(String(step))) path += `.${String(step)}`
    else path += `[${JSON.stringify(String(step))}]`
  }
  return path
}

/** The value that stands at a path, or undefined; own properties only, so `__proto__` finds nothing. */
export function valueAt(root: unknown, steps: readonly PropertyKey[]): unknown {
  let here: unknown = root
  for (const step of steps) {
    if (typeof here !== 'object' || here === null || !Object.hasOwn(here, step)) return undefined
    here = Reflect.get(here, step)
  }
  return here
}

/**
 * All faults of a failed zod parse, each with its JSON path, what stood there and what was expected.
 * @param input the value that was parsed, from which the found values are read
 */
export function faultsFromZod(error: z.ZodError, input: unknown): Fault[] {
  return error.issues.flatMap((issue) => faultsFromIssue(issue, input, []))
}

function faultsFromIssue(issue: z.core.$ZodIssue, input: unknown, above: readonly PropertyKey[]): Fault[] {
  const steps = [...above, ...issue.path]
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => ({
      path: jsonPath([...steps, key]),
      found: showValue(valueAt(input, [...steps, key])),
      expected: say('no such field'),
      todo: say('Remove it, or look for a slip in its name.'),
    }))
  }
  if (issue.code === 'invalid_union' && issue.errors.length > 0) {
    const nearest = issue.errors.reduce((a, b) => (a.length <= b.length ? a : b))
    if (nearest.length > 0) return nearest.flatMap((inner) => faultsFromIssue(inner, input, steps))
  }
  return [{ path: jsonPath(steps), found: showValue(valueAt(input, steps)), expected: expectation(issue) }]
}

function expectation(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return /^[aeiou]/.test(issue.expected)
        ? say('an {type}', { type: issue.expected })
        : say('a {type}', { type: issue.expected })
    case 'too_small': {
      const least = counted(issue.minimum, issue.origin)
      return issue.inclusive === false ? say('more than {least}', { least }) : say('at least {least}', { least })
    }
    case 'too_big': {
      const most = counted(issue.maximum, issue.origin)
      return issue.inclusive === false ? say('less than {most}', { most }) : say('at most {most}', { most })
    }
    case 'invalid_value':
      return issue.values.map((value) => String(value)).join(` ${say('or')} `)
    default:
      return issue.message.replace(/\.$/, '')
  }
}

function counted(bound: number | bigint, of: string): string {
  const count = String(bound)
  if (of === 'array') return say('{count} entries', { count })
  if (of === 'string') return say('{count} characters', { count })
  return count
}
