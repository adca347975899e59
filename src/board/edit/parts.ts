/** Adds parts, copies them in rows, takes them away, renames them and changes what is said of them. */
import { bad, type Fault, good, type Result, showValue, say } from '../../base/index.ts'
import { packageOutlines } from '../packages.ts'
import type { BoardDescription, Part, Rail } from '../schema.ts'
import type { EditOf } from './edits.ts'
import { partsNamed, roundMm } from './look-up.ts'
import { withoutRefs, withRef } from './references.ts'

const MOST_PARTS = 20_000

/** Adds one part. Refuses a ref that is taken or has a slash, and a part with neither body nor known package. */
export function addPart(board: BoardDescription, { part }: EditOf<'add-part'>): Result<BoardDescription> {
  const faults = [...refFaults(board, part.ref), ...bodyFaults(part)]
  if (faults.length > 0) return bad(...faults)
  return board.parts.length < MOST_PARTS ? good({ ...board, parts: [...board.parts, part] }) : tooMany(part.ref)
}

function bodyFaults({ ref, package: name, body }: Pick<Part, 'ref' | 'package' | 'body'>): Fault[] {
  if (name !== undefined && !packageOutlines.has(name)) {
    const expected = say('one of {names}', { names: [...packageOutlines.keys()].join(', ') })
    return [{ path: ref, found: say('the package {name}', { name: showValue(name) }), expected }]
  }
  if (name !== undefined || body !== undefined) return []
  return [{ path: ref, found: say('neither body nor package'), expected: say('a body, or a package that gives one') }]
}

function refFaults(board: BoardDescription, ref: string): Fault[] {
  if (ref.includes('/'))
    return [{ path: ref, found: say('a slash in the ref'), expected: say('a ref without a slash') }]
  return board.parts.some((part) => part.ref === ref)
    ? [{ path: ref, found: say('a part that has this ref already'), expected: say('a ref that no part has') }]
    : []
}

/**
 * The next refs that are free for parts like this one: its letters, then numbers from the highest on.
 * `C` and `C7` both ask for capacitors' refs.
 */
export function freeRefs(board: BoardDescription, like: string, count = 1): string[] {
  const letters = lettersOf(like)
  let highest = 0
  for (const { ref } of board.parts) {
    const digits = ref.startsWith(letters) ? ref.slice(letters.length) : ''
    if (/^\d{1,9}$/.test(digits)) highest = Math.max(highest, Number(digits))
  }
  return Array.from({ length: count }, (_, i) => `${letters}${highest + 1 + i}`)
}

const lettersOf = (ref: string): string => /^\D+/.exec(ref)?.[0] ?? 'X'

/**
 * Copies parts in columns and rows, the originals first. Copies get free refs and stand in the rails of their originals;
 * lanes and probe points stay with the originals. Refuses a second core, and steps that put copies on one another.
 */
export function array(board: BoardDescription, edit: EditOf<'array'>): Result<BoardDescription> {
  const originals = partsNamed(board, edit.refs)
  if (!originals.ok) return originals
  const { columns, rows, pitchMm } = edit
  const core = originals.value.find(({ kind }) => kind === 'core')
  if (core !== undefined)
    return bad({ path: core.ref, found: say('a core'), expected: say('parts that a board has several of') })
  if ((columns > 1 && pitchMm.x === 0) || (rows > 1 && pitchMm.y === 0))
    return bad({ path: 'the step', found: say('0 mm'), expected: say('a step that puts copies apart') })
  if (board.parts.length + originals.value.length * (columns * rows - 1) > MOST_PARTS) return tooMany(say('the copies'))
  const copies = new Map<string, string[]>()
  let grown = board
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      if (row === 0 && column === 0) continue
      for (const original of originals.value) {
        const copy = copyOf(grown, original, { x: column * pitchMm.x, y: row * pitchMm.y })
        grown = { ...grown, parts: [...grown.parts, copy] }
        copies.set(original.ref, [...(copies.get(original.ref) ?? []), copy.ref])
      }
    }
  return good({ ...grown, rails: grown.rails.map((rail) => withCopies(rail, copies)) })
}

function copyOf(board: BoardDescription, original: Part, by: { readonly x: number; readonly y: number }): Part {
  const [ref = original.ref] = freeRefs(board, original.ref)
  return { ...original, ref, at: { x: roundMm(original.at.x + by.x), y: roundMm(original.at.y + by.y) } }
}

function withCopies(rail: Rail, copies: ReadonlyMap<string, readonly string[]>): Rail {
  const grown = (refs: readonly string[]): string[] => [...refs, ...refs.flatMap((ref) => copies.get(ref) ?? [])]
  return {
    ...rail,
    stages: grown(rail.stages),
    feeds: grown(rail.feeds),
    branches: rail.branches.map((branch) => ({ ...branch, feeds: grown(branch.feeds) })),
  }
}

const tooMany = (path: string): Result<never> =>
  bad({
    path,
    found: say('more than {mostParts} parts', { mostParts: MOST_PARTS }),
    expected: say('at most {mostParts} parts on a board', { mostParts: MOST_PARTS }),
  })

/** Takes parts away with what speaks of them (see `withoutRefs`). Refuses to take the last part. */
export function remove(board: BoardDescription, { refs }: EditOf<'remove'>): Result<BoardDescription> {
  const parts = partsNamed(board, refs)
  if (!parts.ok) return parts
  if (parts.value.length === board.parts.length)
    return bad({
      path: say('the selection'),
      found: say('every part of the board'),
      expected: say('at least one part that stays'),
    })
  return good(withoutRefs(board, new Set(parts.value.map(({ ref }) => ref))))
}

/** Renames a part; whatever names it follows. Refuses a ref that is taken or has a slash. */
export function rename(board: BoardDescription, { ref, to }: EditOf<'rename'>): Result<BoardDescription> {
  const parts = partsNamed(board, [ref])
  if (!parts.ok) return parts
  if (ref === to) return good(board)
  const faults = refFaults(board, to)
  return faults.length > 0 ? bad(...faults) : good(withRef(board, ref, to))
}

/** Changes what is said of a part; null takes a field away. Refuses a part that is left without body and package. */
export function changePart(board: BoardDescription, { ref, change }: EditOf<'change-part'>): Result<BoardDescription> {
  const parts = partsNamed(board, [ref])
  if (!parts.ok) return parts
  const [part] = parts.value
  if (part === undefined) return good(board)
  const next = withFields(part, change)
  const faults = bodyFaults(next)
  if (faults.length > 0) return bad(...faults)
  return good({ ...board, parts: board.parts.map((each) => (each === part ? next : each)) })
}

type Cleared<T> = { readonly [K in keyof T]?: T[K] | null | undefined }

/** The same record with fields changed; null takes one away, undefined leaves it. */
export function withFields<T extends object>(record: T, change: Cleared<T>): T {
  const next = { ...record }
  for (const [field, value] of Object.entries(change)) {
    if (value === null) Reflect.deleteProperty(next, field)
    else if (value !== undefined) Reflect.set(next, field, value)
  }
  return next
}
