/** `liftmap learn FILE` for a lane: the order of its data bits from bits that failed with known balls. */
import type { z } from 'zod'
import { bad, good, joined, type Result, someOf, say } from '../../base/index.ts'
import {
  type BoardModel,
  dqBallsOf,
  type DqOrder,
  type FailedBit,
  learnDqOrder,
  readFailedBits,
} from '../../board/index.ts'
import { EXIT, printAnswer, printFaults, whenGood } from '../answer.ts'
import { openBoardFile } from '../files.ts'
import type { Io } from '../io.ts'
import { learnLaneOutput } from '../learn-output.ts'

type LearntLane = z.infer<typeof learnLaneOutput>

/** Whose balls: those of a lane of a board, or as they are given, of DQ 0, 1, 2 … */
export type BallSource = { readonly board: string; readonly lane: string } | { readonly balls: string }

export interface LaneOptions {
  readonly source: BallSource
  readonly text?: boolean | undefined
}

/** @param text lines `bit,ball`, as they stand in the file */
export async function runLearnLane(io: Io, text: Result<string>, { source, ...how }: LaneOptions): Promise<number> {
  const balls = await ballsOf(io, source)
  const seen = text.ok ? readFailedBits(text.value) : text
  const faults = [balls, seen].flatMap((result) => (result.ok ? [] : result.faults))
  if (!balls.ok || !seen.ok) return printFaults(io, faults)
  return await whenGood(io, learnDqOrder(balls.value, seen.value), (order) => {
    const answer = answerOf({
      lane: 'lane' in source ? source.lane : undefined,
      balls: balls.value,
      seen: seen.value,
      order,
    })
    printAnswer(io, learnLaneOutput, answer, how.text === true ? sayLane : undefined)
    return EXIT.fine
  })
}

async function ballsOf(io: Io, source: BallSource): Promise<Result<readonly string[]>> {
  if ('balls' in source) return good(source.balls.split(',').map((ball) => ball.trim()))
  const opened = await openBoardFile(io, source.board)
  return opened.ok ? ballsOfLane(opened.value.model, source.lane, source.board) : opened
}

function ballsOfLane(model: BoardModel, id: string, path: string): Result<readonly string[]> {
  const lane = model.laneById.get(id)
  if (lane === undefined) {
    const expected = say('a lane of the board, such as {lanes}', {
      lanes: someOf(model.lanes.map((each) => each.id).slice(0, 3)),
    })
    return bad({ path: '--lane', found: id, expected })
  }
  const balls = dqBallsOf(model, lane)
  if (balls !== undefined) return good(balls)
  return bad({
    path,
    found: say('no ball map for the package of {part}', { part: lane.part }),
    expected: say('a package whose data balls are known'),
    todo: say('Give the balls of DQ 0, 1, 2 … with --balls.'),
  })
}

interface Learnt {
  readonly lane: string | undefined
  readonly balls: readonly string[]
  readonly seen: readonly FailedBit[]
  readonly order: DqOrder
}

const answerOf = ({ lane, balls, seen, order }: Learnt): LearntLane => ({
  lane: lane ?? null,
  rows: seen.length,
  bits: order.swaps.map((dq, bit) => ({ bit, dq: dq ?? null, ball: dq === undefined ? null : (balls[dq] ?? null) })),
  swaps: order.undeterminedBits.length > 0 ? null : order.swaps.flatMap((dq) => dq ?? []),
  undeterminedBits: [...order.undeterminedBits],
  nextBalls: [...order.nextBalls],
  contradictions: [...order.contradictions],
})

function sayLane({ lane, rows, bits, swaps, undeterminedBits, nextBalls, contradictions }: LearntLane): string {
  const known = bits.flatMap(({ bit, dq, ball }) =>
    dq === null ? [] : [say('  bit {bit} is DQ{dq}, ball {ball}', { bit, dq, ball })],
  )
  const open = say('{count, plural, one {bit} other {bits}} {bits}', {
    count: undeterminedBits.length,
    bits: joined(undeterminedBits.map(String)),
  })
  return [
    say(
      '{lane}: {length, plural, one {# data bit} other {# data bits}}, {rows, plural, one {# line} other {# lines}}.',
      { lane: lane ?? say('The lane'), length: bits.length, rows },
    ),
    ...known,
    ...(swaps === null
      ? [say('Not known: {open}. Open or hold next: {nextBalls}.', { open, nextBalls: joined(nextBalls) })]
      : [say('Every bit is known. For the lane in the board file: "swaps": [{swaps}]', { swaps: swaps.join(', ') })]),
    contradictions.length === 0
      ? say('No line contradicts the rest.')
      : say(
          '{length, plural, one {# line} other {# lines}} {length, plural, one {contradicts} other {contradict}} the rest: {contradictions}.',
          { length: contradictions.length, contradictions: someOf(contradictions.map(String), 20) },
        ),
  ].join('\n')
}
