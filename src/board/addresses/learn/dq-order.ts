/** The order of data bits, and swaps within a lane, from bits that failed while the ball at fault was known. */
import { bad, type Fault, good, type Result, showValue, say } from '../../../base/index.ts'
import { heaviestAssignment } from './assignment.ts'

/** With this ball open, or held, this data bit of the word or lane failed. */
export interface FailedBit {
  readonly bit: number
  readonly ball: string
  /** Where it was noted, to name it. */
  readonly line: number
}

export interface DqOrder {
  /** DQ number of each data bit, as `swaps` of a lane in a board file; undefined where it is not known. */
  readonly swaps: readonly (number | undefined)[]
  /** Data bits whose DQ number is not known. */
  readonly undeterminedBits: readonly number[]
  /** Balls to open or hold next: with these known, so is every bit. */
  readonly nextBalls: readonly string[]
  /** Lines that do not fit what the others tell. */
  readonly contradictions: readonly number[]
}

const MOST_BITS = 64

/**
 * Each data bit has one ball, each ball one bit: the assignment that most observations agree with. A bit counts as known
 * where every other ball would agree with fewer. The last bit follows from the others.
 * @param balls ball of DQ 0, 1, 2 … of the lane or word, at most 64
 * @returns the order; or a fault for each ball that is none of these, and each bit beyond them
 */
export function learnDqOrder(balls: readonly string[], observations: readonly FailedBit[]): Result<DqOrder> {
  const faults = [...faultsOfBalls(balls), ...observations.flatMap((seen) => faultsOf(seen, balls))]
  if (faults.length > 0) return bad(...faults)
  const votes = balls.map(() => balls.map(() => 0))
  const dqOf = new Map(balls.map((ball, dq) => [ball, dq]))
  for (const { bit, ball } of observations) {
    const row = votes[bit]
    const dq = dqOf.get(ball) ?? 0
    if (row !== undefined) row[dq] = (row[dq] ?? 0) + 1
  }
  const best = heaviestAssignment(votes)
  const swaps = best.columns.map((dq, bit) => (isOnlyBest(votes, bit, dq, best.weight) ? dq : undefined))
  const open = balls.filter((_, dq) => !swaps.includes(dq))
  const bitOf = new Map(swaps.map((dq, bit) => [dq, bit]))
  const contradictions = observations.flatMap(({ bit, ball, line }) => {
    const dq = dqOf.get(ball)
    const fits = (swaps[bit] ?? dq) === dq && (bitOf.get(dq) ?? bit) === bit
    return fits ? [] : [line]
  })
  const undeterminedBits = swaps.flatMap((dq, bit) => (dq === undefined ? [bit] : []))
  return good({ swaps, undeterminedBits, nextBalls: open.slice(0, -1), contradictions })
}

/** Would every assignment without this pair agree with fewer observations? */
function isOnlyBest(votes: readonly (readonly number[])[], bit: number, dq: number, weight: number): boolean {
  if (votes.length === 1) return true
  const without = votes.map((row, i) => (i === bit ? row.map((count, j) => (j === dq ? -weight - 1 : count)) : row))
  return heaviestAssignment(without).weight < weight
}

function faultsOfBalls(balls: readonly string[]): Fault[] {
  if (balls.length === 0 || balls.length > MOST_BITS)
    return [
      {
        path: 'balls',
        found: say('{count} balls', { count: balls.length }),
        expected: say('1 to {mostBits}', { mostBits: MOST_BITS }),
      },
    ]
  const twice = balls.find((ball, i) => balls.indexOf(ball) !== i)
  return twice === undefined
    ? []
    : [
        {
          path: 'balls',
          found: say('{twice} for the second time', { twice: showValue(twice) }),
          expected: say('each ball once'),
        },
      ]
}

function faultsOf({ bit, ball, line }: FailedBit, balls: readonly string[]): Fault[] {
  const faults: Fault[] = []
  if (!(Number.isInteger(bit) && bit >= 0 && bit < balls.length))
    faults.push({
      path: `line ${line}`,
      found: `bit ${bit}`,
      expected: say('a bit from 0 to {last}', { last: balls.length - 1 }),
    })
  if (!balls.includes(ball))
    faults.push({ path: `line ${line}`, found: showValue(ball), expected: say('a data ball of the lane') })
  return faults
}
