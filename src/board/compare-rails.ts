/** What of the rails changed between two versions of a board, in sentences. */
import { someOf, say } from '../base/index.ts'
import type { BoardDescription, Rail } from './schema.ts'

/** @param newRef later refs of parts that were renamed; a rename alone changes no rail */
export function compareRails(
  before: BoardDescription,
  after: BoardDescription,
  newRef: ReadonlyMap<string, string>,
): string[] {
  const earlier = new Map(before.rails.map((rail) => [rail.name, withRefs(rail, newRef)]))
  const later = new Map(after.rails.map((rail) => [rail.name, rail]))
  const pairs = [...later].flatMap(([name, is]) => {
    const was = earlier.get(name)
    return was === undefined ? [] : [{ was, is }]
  })
  return [
    ...[...later.keys()].filter((name) => !earlier.has(name)).map((name) => say('Rail {name} is new.', { name })),
    ...[...earlier.keys()].filter((name) => !later.has(name)).map((name) => say('Rail {name} is gone.', { name })),
    ...pairs.flatMap(({ was, is }) => compareRail(was, is)),
  ]
}

function withRefs(rail: Rail, newRef: ReadonlyMap<string, string>): Rail {
  if (newRef.size === 0) return rail
  const other = (ref: string): string => newRef.get(ref) ?? ref
  return {
    ...rail,
    stages: rail.stages.map(other),
    feeds: rail.feeds.map(other),
    branches: rail.branches.map((branch) => ({ ...branch, feeds: branch.feeds.map(other) })),
    points: rail.points.map((point) => (point.part === undefined ? point : { ...point, part: other(point.part) })),
  }
}

function compareRail(was: Rail, is: Rail): string[] {
  const { name } = is
  return [
    ...(was.nominalV === is.nominalV && was.tolerancePct === is.tolerancePct
      ? []
      : [say('Rail {name} is at {is}; it was at {was}.', { name, is: voltWords(is), was: voltWords(was) })]),
    ...(ohmWords(was) === ohmWords(is)
      ? []
      : [say('Rail {name} reads {is} to ground; it read {was}.', { name, is: ohmWords(is), was: ohmWords(was) })]),
    ...(diodeWords(was) === diodeWords(is)
      ? []
      : [
          say('Rail {name} reads {is} in diode mode; it read {was}.', {
            name,
            is: diodeWords(is),
            was: diodeWords(was),
          }),
        ]),
    ...refWords(
      was.stages,
      is.stages,
      (refs) => say('Rail {name} is made by {refs} too.', { name, refs }),
      (refs) => say('Rail {name} is no longer made by {refs}.', { name, refs }),
    ),
    ...refWords(
      was.feeds,
      is.feeds,
      (refs) => say('Rail {name} feeds {refs} too.', { name, refs }),
      (refs) => say('Rail {name} no longer feeds {refs}.', { name, refs }),
    ),
    ...(JSON.stringify(was.branches) === JSON.stringify(is.branches)
      ? []
      : [say('Rail {name} branches otherwise.', { name })]),
    ...pointWords(was, is),
    ...(JSON.stringify(was.copper) === JSON.stringify(is.copper)
      ? []
      : [say('Rail {name} has other copper.', { name })]),
  ]
}

const voltWords = ({ nominalV, tolerancePct }: Rail): string =>
  nominalV === undefined
    ? say('an unknown voltage')
    : `${nominalV} V${tolerancePct === undefined ? '' : ` ± ${tolerancePct} %`}`

const ohmWords = ({ ohmsToGround: ohms }: Rail): string =>
  ohms === undefined
    ? say('no known range')
    : say('{lowOhm} to {highOhm} Ω', { lowOhm: ohms.lowOhm, highOhm: ohms.highOhm })

const diodeWords = ({ diodeToGround: diode }: Rail): string =>
  diode === undefined ? say('no known range') : say('{lowV} to {highV} V', { lowV: diode.lowV, highV: diode.highV })

function refWords(
  was: readonly string[],
  is: readonly string[],
  sayMore: (refs: string) => string,
  sayLess: (refs: string) => string,
): string[] {
  const added = is.filter((ref) => !was.includes(ref))
  const gone = was.filter((ref) => !is.includes(ref))
  return [
    ...(added.length > 0 ? [sayMore(someOf(added, 6))] : []),
    ...(gone.length > 0 ? [sayLess(someOf(gone, 6))] : []),
  ]
}

function pointWords(was: Rail, is: Rail): string[] {
  const name = say('Rail {name}', { name: is.name })
  if (was.points.length !== is.points.length)
    return [
      say('{name} has {now} probe points; it had {before}.', {
        name,
        now: is.points.length,
        before: was.points.length,
      }),
    ]
  return JSON.stringify(was.points) === JSON.stringify(is.points) ? [] : [say('{name} is probed elsewhere.', { name })]
}
