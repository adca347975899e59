/** What a part's reference and footprint say it is, where nothing else does. Letters by IEEE 315 and usual practice. */
import { someOf, say } from '../../base/index.ts'
import type { Footprint } from './model.ts'

/** Letters at the start of a reference: `R12` is `R`. */
export const prefixOf = (ref: string): string => /^[A-Za-z]+/.exec(ref)?.[0].toUpperCase() ?? ''

const CONNECTOR_PREFIXES = new Set(['J', 'CN', 'CON', 'CONN', 'BUS', 'JFP', 'XS', 'USB', 'P'])
const CONNECTOR_LIBRARY = /connector|pin_?header|pin_?socket|conn[_:]|d-?sub|usb|jack|bnc|edge/i
/** Parts of these letters are none, whatever interface their library names. */
const NEVER_CONNECTORS = new Set(['R', 'RN', 'C', 'L', 'FB', 'D', 'LED', 'Q', 'U', 'IC', 'F', 'Y', 'FID', 'TP', 'T'])

/** By the letters of its reference, or by its library unless the letters say that it is something else. */
export function isConnector({ reference, library }: Pick<Footprint, 'reference' | 'library'>): boolean {
  const prefix = prefixOf(reference)
  return CONNECTOR_PREFIXES.has(prefix) || (!NEVER_CONNECTORS.has(prefix) && CONNECTOR_LIBRARY.test(library))
}

const MAX_NAME = 120
// oxlint-disable-next-line no-control-regex -- control characters are what it looks for
const UNREADABLE = /[\u0000-\u001f\u007f]+/g

/**
 * References as a description can have them: a slash, which parts ref and region in an id, becomes a dash, repeated ones
 * get `#2`, `#3` …, empty ones become `unnamed-1` …; all of that is said.
 */
export function uniqueReferences(written: readonly string[], untold: string[]): string[] {
  const references = written.map((reference) => reference.replaceAll('/', '-').replaceAll(UNREADABLE, ' ').trim())
  const taken = new Set(references)
  const seen = new Set<string>()
  const repeated: string[] = []
  const uses = new Map<string, number>()
  let unnamed = 0
  const names = references.map((reference) => {
    const wanted = reference === '' ? `unnamed-${++unnamed}` : reference.slice(0, MAX_NAME - 8)
    const free = (name: string): boolean => !seen.has(name) && (name === reference || !taken.has(name))
    let name = wanted
    let n = uses.get(wanted) ?? 1
    while (!free(name)) name = `${wanted}#${++n}`
    uses.set(wanted, n)
    if (reference !== '' && name !== reference) repeated.push(name)
    seen.add(name)
    return name
  })
  const renamed = written.flatMap((before, i) =>
    before.includes('/') ? [say('{before} is {names}', { before, names: names[i] ?? '' })] : [],
  )
  if (renamed.length > 0)
    untold.push(say('References with a slash are called otherwise: {renamed}.', { renamed: someOf(renamed) }))
  if (repeated.length > 0)
    untold.push(
      say('{count} references are used more than once; the later ones are called {repeated}.', {
        count: repeated.length,
        repeated: someOf(repeated),
      }),
    )
  if (unnamed > 0)
    untold.push(say('{unnamed} parts have no reference; they are called unnamed-1 and so on.', { unnamed }))
  return names
}
