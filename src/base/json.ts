/** Text of a file to a plain value, with the dangers taken out: depth, size and keys that reach a prototype. */
import { say } from './message.ts'
import { bad, good, type Result } from './errors.ts'

const MAX_DEPTH = 64
const MAX_CHARACTERS = 256 * 1024 * 1024
const FORBIDDEN_KEYS = new Set(['__proto__', 'constructor', 'prototype'])

/**
 * Parses JSON text from outside.
 * @returns the plain value, or one fault: too long, nested deeper than 64, not JSON (with its line), or a key that
 * would reach an object's prototype
 */
export function parseJson(text: string, name = 'file'): Result<unknown> {
  if (text.length > MAX_CHARACTERS) {
    return bad({
      path: name,
      found: say('{count} characters', { count: text.length }),
      expected: say('at most {most} characters', { most: MAX_CHARACTERS }),
    })
  }
  const tooDeep = firstLineDeeperThan(text, MAX_DEPTH)
  if (tooDeep !== undefined) {
    return bad({
      path: say('{name}, line {tooDeep}', { name, tooDeep }),
      found: say('brackets nested deeper than {most}', { most: MAX_DEPTH }),
      expected: say('a file of this kind, which nests a few levels'),
    })
  }
  let value: unknown
  try {
    value = JSON.parse(text.charCodeAt(0) === 0xfeff ? text.slice(1) : text)
  } catch (cause) {
    return bad({
      path: name,
      found: brokenAt(cause, text),
      expected: say('JSON text'),
      todo: say('Check that the whole file was copied.'),
    })
  }
  const key = firstForbiddenKey(value)
  if (key !== undefined)
    return bad({
      path: name,
      found: say('a key named {key}', { key }),
      expected: say('no such key'),
      todo: say('Remove it.'),
    })
  return good(value)
}

/** Where it breaks off being JSON. What stands there is not quoted: it may be any file of the machine. */
function brokenAt(cause: unknown, text: string): string {
  const position = /at position (\d+)/.exec(cause instanceof Error ? cause.message : '')?.[1]
  if (position === undefined) return say('text that is no JSON')
  const before = text.slice(0, Number(position)).split('\n')
  return say('text that is no JSON from line {line}, character {character} on', {
    line: before.length,
    character: (before.at(-1)?.length ?? 0) + 1,
  })
}

/** Line number (from 1) where brackets outside of strings first nest deeper than `limit`; undefined if nowhere. */
function firstLineDeeperThan(text: string, limit: number): number | undefined {
  let depth = 0
  let line = 1
  let inString = false
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i)
    if (code === 10) line++
    if (inString) {
      if (code === 92) i++
      else if (code === 34) inString = false
    } else if (code === 34) inString = true
    else if (code === 91 || code === 123) {
      if (++depth > limit) return line
    } else if (code === 93 || code === 125) depth--
  }
  return undefined
}

function firstForbiddenKey(value: unknown): string | undefined {
  if (typeof value !== 'object' || value === null) return undefined
  if (Array.isArray(value)) {
    for (const item of value) {
      const inner = firstForbiddenKey(item)
      if (inner !== undefined) return inner
    }
    return undefined
  }
  for (const key of Object.keys(value)) {
    if (FORBIDDEN_KEYS.has(key)) return key
    const inner = firstForbiddenKey(Reflect.get(value, key))
    if (inner !== undefined) return inner
  }
  return undefined
}
