/** What can be placed on a photo, and the sizes that such parts usually have. */
import { say } from '../../base/index.ts'
import { outlineNamed, packageOutlines, type PartKind, type PatternPackage } from '../../board/index.ts'
import type { TracedPart } from '../../trace/index.ts'

export type TracedKind = Exclude<PartKind, 'other'>
export type Body = TracedPart['body']

export const kindOptions: readonly { readonly value: TracedKind; readonly words: string }[] = [
  { value: 'core', words: say('Core') },
  { value: 'memory', words: say('Memory package') },
  { value: 'power-stage', words: say('Power stage') },
  { value: 'inductor', words: say('Inductor') },
  { value: 'capacitor', words: say('Capacitor') },
  { value: 'controller', words: say('Controller') },
  { value: 'connector', words: say('Connector') },
]

export const kindWords = (kind: PartKind): string =>
  kindOptions.find(({ value }) => value === kind)?.words ?? say('Other part')

/** Usual sizes, from memory; each can be changed. */
const usual: Readonly<Record<Exclude<TracedKind, 'memory'>, Body>> = {
  core: { widthMm: 40, lengthMm: 40, heightMm: 2.6 },
  'power-stage': { widthMm: 5, lengthMm: 6, heightMm: 0.8 },
  inductor: { widthMm: 8, lengthMm: 8, heightMm: 4.5 },
  capacitor: { widthMm: 4.3, lengthMm: 7.3, heightMm: 2.8 },
  controller: { widthMm: 6, lengthMm: 6, heightMm: 0.9 },
  connector: { widthMm: 18, lengthMm: 16, heightMm: 7.5 },
}

export function bodyOfPackage(name: PatternPackage): Body {
  const { widthMm, lengthMm, heightMm } = outlineNamed(name).body
  return { widthMm, lengthMm, heightMm }
}

/** Cores of the repository, as quick choices of size. */
export const coreSizes: readonly number[] = [...packageOutlines.values()]
  .filter(({ kind, body }) => kind === 'core' && body.widthMm === body.lengthMm)
  .map(({ body }) => body.widthMm)
  .toSorted((a, b) => a - b)

export interface Wanted {
  readonly kind: TracedKind
  readonly package: PatternPackage
  /** As changed by hand, by kind. */
  readonly bodies: Readonly<Record<Exclude<TracedKind, 'memory'>, Body>>
}

export const firstWanted: Wanted = { kind: 'core', package: '180-ball', bodies: usual }

export const bodyWanted = (wanted: Wanted): Body =>
  wanted.kind === 'memory' ? bodyOfPackage(wanted.package) : wanted.bodies[wanted.kind]
