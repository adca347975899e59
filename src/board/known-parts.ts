/** The parts of a board that could be read, by ref, with the names of their pads. */
import { ballsOf } from './ball-field.ts'
import type { BoardDraft } from './draft.ts'
import type { PackageOutline } from './package-outline.ts'
import type { Part } from './schema.ts'

export interface KnownParts {
  readonly byRef: ReadonlyMap<string, Part>
  readonly core: Part | undefined
  /** Some part of the file could not be read; it might be the core. */
  readonly someUnread: boolean
  readonly outlineOf: (part: Part | undefined) => PackageOutline | undefined
  /** Names of a part's pads, else of its package's balls; undefined where neither is told. Worked out once a part. */
  readonly padNames: (ref: string) => ReadonlySet<string> | undefined
  /** Names of the regions that the part draws or its package gives. */
  readonly regionNames: (ref: string) => ReadonlySet<string>
}

/**
 * Looks up what can be known although some parts did not parse: `someUnread` says so. Names of balls and regions are
 * worked out when first asked for. `outlines` are by package name.
 */
export function knownParts(draft: BoardDraft, outlines: ReadonlyMap<string, PackageOutline>): KnownParts {
  const byRef = new Map(draft.parts.map(({ value }) => [value.ref, value]))
  const outlineOf = (part: Part | undefined): PackageOutline | undefined => outlines.get(part?.package ?? '')
  const padNames = once((ref) => {
    const part = byRef.get(ref)
    if (part?.pads !== undefined) return new Set(part.pads.map((pad) => pad.number))
    const outline = outlineOf(part)
    return outline && new Set(ballsOf(outline).map((ball) => ball.name))
  })
  const regionNames = once((ref) => {
    const part = byRef.get(ref)
    return new Set([...(part?.regions ?? []), ...(outlineOf(part)?.regions ?? [])].map((region) => region.name))
  })
  const core = draft.parts.find(({ value }) => value.kind === 'core')?.value
  return { byRef, core, someUnread: byRef.size < draft.refs.size, outlineOf, padNames, regionNames }
}

function once<T>(work: (ref: string) => T): (ref: string) => T {
  const done = new Map<string, { readonly result: T }>()
  return (ref) => {
    const known = done.get(ref) ?? { result: work(ref) }
    done.set(ref, known)
    return known.result
  }
}
