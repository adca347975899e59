/**
 * The cheapest policy over all histories, the plain way: every action at every history, worlds walked through the history one
 * by one with their probabilities. Slow, and written apart from the solver, which it is held against.
 */
import type { TreePart, TreeProblem } from '../../src/suspects/index.ts'

interface Walked {
  /** Faults that are left, as names. */
  readonly faults: ReadonlySet<number>
  readonly weight: number
}

interface Situation {
  readonly worlds: readonly Walked[]
  readonly off: readonly number[]
  readonly hot: boolean
  readonly washed: boolean
  readonly repaired: boolean
}

const LEAST_NEED = 0.05
const LEAST_PLACE = 0.05

export function cheapestByHistories(problem: TreeProblem): number {
  const worlds = [...problem.sets].map((set, index) => ({ faults: bitsOf(set), weight: problem.weights[index] ?? 0 }))
  return cheapest(problem, { worlds, off: [], hot: false, washed: false, repaired: false }, problem.depth)
}

const bitsOf = (set: number): Set<number> => new Set([1, 2, 4, 8, 16, 32].filter((bit) => (set & bit) !== 0))
const massOf = (worlds: readonly Walked[]): number => worlds.reduce((sum, { weight }) => sum + weight, 0)

function cheapest(problem: TreeProblem, at: Situation, depth: number): number {
  const giveUp = at.hot ? problem.giveUpHot : problem.giveUpCold
  if (depth === 0) return giveUp
  return Math.min(
    giveUp,
    ...lifts(problem, at, depth),
    ...(at.off.length > 0 ? refits(problem, at, depth) : cold(problem, at, depth)),
  )
}

function lifts(problem: TreeProblem, at: Situation, depth: number): number[] {
  return problem.parts.flatMap((part, index) => {
    const { die, joints, beneath } = part
    const needs = at.worlds.filter(({ faults }) => [die, joints, beneath].some((bit) => faults.has(bit)))
    if (at.off.includes(index) || massOf(needs) < LEAST_NEED * massOf(at.worlds)) return []
    const fee = part.lift.money + (at.hot ? 0 : problem.prepare.money)
    const lost = part.lossEnds ? part.lossChance * problem.giveUpHot : part.lossChance * part.lossMoney
    const kept = part.lossEnds ? 1 - part.lossChance : 1
    const seen = (faults: ReadonlySet<number>): number =>
      faults.has(beneath) ? problem.cures.seesBeneath : problem.cures.falseAlarm
    const looks = beneath === 0 ? [() => 1] : [seen, (faults: ReadonlySet<number>) => 1 - seen(faults)]
    const later = looks.reduce((sum, look) => {
      const worlds = at.worlds.map(({ faults, weight }) => ({ faults, weight: weight * look(faults) }))
      const share = massOf(worlds) / massOf(at.worlds)
      if (share <= 0) return sum
      return sum + share * cheapest(problem, { ...at, worlds, off: [...at.off, index], hot: true }, depth - 1)
    }, 0)
    return [fee + lost + kept * later]
  })
}

function refits(problem: TreeProblem, at: Situation, depth: number): number[] {
  const choices = at.off.reduce<(readonly number[])[]>(
    (all, index) => all.flatMap((chosen) => [chosen, [...chosen, index]]),
    [[]],
  )
  return choices.map((fresh) => {
    let { worlds } = at
    let fee = problem.run.money
    for (const index of at.off) {
      const part: TreePart | undefined = problem.parts[index]
      if (part === undefined) continue
      const isNew = fresh.includes(index)
      fee += isNew ? part.replace.money : (part.reball?.money ?? Number.POSITIVE_INFINITY)
      if (isNew) worlds = without(worlds, part.die, problem.cures.replaceDie)
      worlds = without(worlds, part.joints, problem.cures.reballJoints)
      worlds = without(worlds, part.beneath, isNew ? problem.cures.replaceBeneath : problem.cures.reballBeneath)
      if (part.joints !== 0) worlds = worlds.flatMap((world) => brokenAt(world, part.joints, part.refitDefect))
    }
    // flux is washed off around what was refitted, and with it what lies there
    worlds = without(worlds, problem.open, problem.cures.washOpen)
    return fee + tested(problem, { ...at, worlds, off: [] }, depth - 1)
  })
}

const brokenAt = ({ faults, weight }: Walked, bit: number, chance: number): Walked[] => [
  { faults: new Set([...faults, bit]), weight: weight * chance },
  { faults, weight: weight * (1 - chance) },
]

const without = (worlds: readonly Walked[], bit: number, chance: number): Walked[] =>
  worlds.flatMap(({ faults, weight }) =>
    faults.has(bit)
      ? [
          { faults: new Set([...faults].filter((each) => each !== bit)), weight: weight * chance },
          { faults, weight: weight * (1 - chance) },
        ]
      : [{ faults, weight }],
  )

function cold(problem: TreeProblem, at: Situation, depth: number): number[] {
  const costs: number[] = []
  const { washBeneath, washOpen } = problem.cures
  const beneath = problem.parts.map((part) => part.beneath).filter((bit) => bit !== 0)
  const washable = [...(washBeneath > 0 ? beneath : []), ...(washOpen > 0 ? [problem.open] : [])]
  const dirty = at.worlds.filter(({ faults }) => washable.some((bit) => faults.has(bit)))
  const mayWash = !at.washed && problem.wash !== undefined
  if (mayWash && massOf(dirty) >= LEAST_NEED * massOf(at.worlds)) {
    const inside = beneath.reduce((left, bit) => without(left, bit, washBeneath), [...at.worlds])
    const worlds = without(inside, problem.open, washOpen)
    const fee = (problem.wash?.money ?? 0) + problem.run.money
    costs.push(fee + tested(problem, { ...at, worlds, washed: true }, depth - 1))
  }
  const [place] = problem.places
  const there = at.worlds.filter(({ faults }) => faults.has(place?.fault ?? 0))
  if (place !== undefined && !at.repaired && massOf(there) >= LEAST_PLACE * massOf(at.worlds)) {
    const worlds = without(at.worlds, place.fault, problem.cures.repairBeside)
    const fee = problem.placeEffort.money + problem.run.money
    costs.push(fee + tested(problem, { ...at, worlds, repaired: true }, depth - 1))
  }
  return costs
}

/** Passing worlds go back, at a comeback where something is wrong; failing ones are told apart by which packages fail. */
function tested(problem: TreeProblem, at: Situation, depth: number): number {
  const whole = massOf(at.worlds)
  const overlooked = at.worlds.filter(({ faults }) => faults.size > 0)
  let cost = massOf(overlooked) * problem.cures.overlooks * problem.comeback
  const byFailing = new Map<string, Walked[]>()
  for (const { faults, weight } of overlooked) {
    const packages = problem.faults.filter((_, index) => faults.has(1 << index)).map(({ touches }) => touches)
    const key = [1, 2].filter((bit) => packages.some((touches) => (touches & bit) !== 0)).join()
    byFailing.set(key, [...(byFailing.get(key) ?? []), { faults, weight: weight * (1 - problem.cures.overlooks) }])
  }
  for (const worlds of byFailing.values())
    if (massOf(worlds) > 0) cost += massOf(worlds) * cheapest(problem, { ...at, worlds }, depth)
  return cost / whole
}
