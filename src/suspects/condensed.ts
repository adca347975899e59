/** Kept configurations in numbers, for questions that go through all of them again and again. */
import type { Configuration, Shared } from './configurations.ts'

export interface Condensed {
  readonly mass: Float64Array
  /** By configuration: which set of parts its shared causes lift. */
  readonly liftSet: Int32Array
  readonly liftSets: readonly (readonly number[])[]
  /** By configuration: which set of spatial causes touches nothing bad. */
  readonly untouched: Int32Array
  readonly untouchedSets: readonly (readonly number[])[]
  /** By part, by configuration: position in the part's list of cases. */
  readonly caseAt: readonly Int32Array[]
  /** By part: the numbers of the cases that occur. */
  readonly caseNumbers: readonly (readonly number[])[]
}

export function condense(kept: readonly Configuration[], shared: Shared, parts: number): Condensed {
  const lifts = interner()
  const untouched = interner()
  const spatials = [...shared.grounds, ...shared.others].map(({ index }) => index)
  const liftSet = Int32Array.from(kept, ({ set, places }) =>
    lifts.numberOf([
      ...places.flatMap((place) => place.lifts),
      ...set.members.flatMap((at) => shared.points[at]?.cause.lifts ?? []),
    ]),
  )
  const untouchedSet = Int32Array.from(kept, ({ places }) => {
    const chosen = new Set(places.flatMap((place) => place.chosen.map(({ spatial }) => spatial)))
    return untouched.numberOf(spatials.filter((index) => !chosen.has(index)))
  })
  const caseNumbers: number[][] = []
  const caseAt = Array.from({ length: parts }, (_, part) => {
    const known = new Map<number, number>()
    const numbers: number[] = []
    caseNumbers.push(numbers)
    return Int32Array.from(kept, ({ cases }) => {
      const number = cases[part] ?? 0
      const at = known.get(number) ?? numbers.push(number) - 1
      known.set(number, at)
      return at
    })
  })
  return {
    mass: Float64Array.from(kept, ({ mass }) => mass),
    liftSet,
    liftSets: lifts.sets,
    untouched: untouchedSet,
    untouchedSets: untouched.sets,
    caseAt,
    caseNumbers,
  }
}

function interner() {
  const known = new Map<string, number>()
  const sets: number[][] = []
  const numberOf = (members: readonly number[]): number => {
    const set = [...new Set(members)].toSorted((a, b) => a - b)
    const key = set.join()
    const number = known.get(key) ?? sets.push(set) - 1
    known.set(key, number)
    return number
  }
  return { sets, numberOf }
}
