/** Ordering questions from seeded numbers, with every feature that a real one can have. */
import { type Random, seededRandom } from '../../src/base/index.ts'
import type { OrderProblem, Pass } from '../../src/plan/index.ts'

export interface Wish {
  readonly parts: number
  readonly pairs: number
  /** Sizes of larger groups under one nozzle; they need all parts on one side. */
  readonly groups?: readonly number[]
  readonly seed: number
  readonly bothSides?: boolean
  readonly rule?: OrderProblem['rule']
}

export function randomProblem({
  parts,
  pairs,
  groups = [],
  seed,
  bothSides = true,
  rule = 'free',
}: Wish): OrderProblem {
  const random = seededRandom(seed)
  const sides = Array.from({ length: parts }, (): 0 | 1 => (bothSides && random.next() < 0.4 ? 1 : 0))
  const passes = Array.from({ length: parts }, (_, part) => passesFor([part], parts, sides[part] ?? 0, random)).flat()
  for (let k = 0; k < pairs; k++) {
    const a = random.whole(parts)
    const b = random.whole(parts)
    if (a !== b && sides[a] === sides[b])
      passes.push(...passesFor([Math.min(a, b), Math.max(a, b)], parts, sides[a] ?? 0, random))
  }
  for (const size of groups) {
    const first = random.whole(parts)
    const members = Array.from({ length: size }, (_, k) => (first + k) % parts).toSorted((a, b) => a - b)
    passes.push(...passesFor(members, parts, 0, random))
  }
  const near = Array.from({ length: parts }, (_, i) =>
    Array.from({ length: parts }, (_unused, j) => j).filter((j) => j !== i && random.next() < 0.25),
  )
  return {
    partCount: parts,
    passes,
    offBeforeRefit: near,
    reuseCost: Float64Array.from({ length: parts }, () => 2 + random.next()),
    replaceCost: Float64Array.from({ length: parts }, () => 2 + 20 * random.next()),
    spareMelts: Int8Array.from({ length: parts }, () => random.whole(4) - 1),
    flipCost: random.next() * 3,
    start: { states: new Uint8Array(parts), side: -1 },
    rule,
    notFirst: [],
  }
}

function passesFor(members: readonly number[], parts: number, side: 0 | 1, random: Random): Pass[] {
  return (['lift', 'refit'] as const).map((action) => {
    const harm = (): Float64Array =>
      Float64Array.from({ length: parts }, (_, part) =>
        members.includes(part) || random.next() < 0.5 ? 0 : 5 * random.next() ** 2,
      )
    const melts = Array.from({ length: parts }, (_, part) => part).filter(
      (part) => !members.includes(part) && random.next() < 0.35,
    )
    return {
      action,
      members,
      side,
      base: (4 + 3 * random.next()) * members.length * 0.8,
      harmOn: harm(),
      harmRefitted: harm(),
      melts,
    }
  })
}
