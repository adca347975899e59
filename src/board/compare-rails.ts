/** What of the rails changed between two versions of a board, in sentences. */
import { someOf } from '../base/index.ts'
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
    ...[...later.keys()].filter((name) => !earlier.has(name)).map((name) => `Rail ${name} is new.`),
    ...[...earlier.keys()].filter((name) => !later.has(name)).map((name) => `Rail ${name} is gone.`),
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
      : [`Rail ${name} is at ${voltWords(is)}; it was at ${voltWords(was)}.`]),
    ...(ohmWords(was) === ohmWords(is)
      ? []
      : [`Rail ${name} reads ${ohmWords(is)} to ground; it read ${ohmWords(was)}.`]),
    ...(diodeWords(was) === diodeWords(is)
      ? []
      : [`Rail ${name} reads ${diodeWords(is)} in diode mode; it read ${diodeWords(was)}.`]),
    ...refWords(was.stages, is.stages, `Rail ${name} is made by`, `Rail ${name} is no longer made by`),
    ...refWords(was.feeds, is.feeds, `Rail ${name} feeds`, `Rail ${name} no longer feeds`),
    ...(JSON.stringify(was.branches) === JSON.stringify(is.branches) ? [] : [`Rail ${name} branches otherwise.`]),
    ...pointWords(was, is),
    ...(JSON.stringify(was.copper) === JSON.stringify(is.copper) ? [] : [`Rail ${name} has other copper.`]),
  ]
}

const voltWords = ({ nominalV, tolerancePct }: Rail): string =>
  nominalV === undefined
    ? 'an unknown voltage'
    : `${nominalV} V${tolerancePct === undefined ? '' : ` ± ${tolerancePct} %`}`

const ohmWords = ({ ohmsToGround: ohms }: Rail): string =>
  ohms === undefined ? 'no known range' : `${ohms.lowOhm} to ${ohms.highOhm} Ω`

const diodeWords = ({ diodeToGround: diode }: Rail): string =>
  diode === undefined ? 'no known range' : `${diode.lowV} to ${diode.highV} V`

function refWords(was: readonly string[], is: readonly string[], more: string, less: string): string[] {
  const added = is.filter((ref) => !was.includes(ref))
  const gone = was.filter((ref) => !is.includes(ref))
  return [
    ...(added.length > 0 ? [`${more} ${someOf(added, 6)} too.`] : []),
    ...(gone.length > 0 ? [`${less} ${someOf(gone, 6)}.`] : []),
  ]
}

function pointWords(was: Rail, is: Rail): string[] {
  const name = `Rail ${is.name}`
  if (was.points.length !== is.points.length)
    return [`${name} has ${is.points.length} probe points; it had ${was.points.length}.`]
  return JSON.stringify(was.points) === JSON.stringify(is.points) ? [] : [`${name} is probed elsewhere.`]
}
