/** How every verb ends: JSON or text on standard output, faults on standard error, and the exit code. */
import type { z } from 'zod'
import { type Fault, type Result, sayFault } from '../base/index.ts'
import type { Io } from './io.ts'

export const EXIT = { fine: 0, badInput: 1, wrongUsage: 2 } as const

/** Ends a verb that was called in a wrong way, with exit 2. */
export class WrongUsage extends Error {}

/** Prints a verb's answer, checked against its own schema, as JSON or (`--text`) as lines for people. */
export function printAnswer<T>(
  io: Io,
  schema: z.ZodType<T>,
  answer: T,
  asText: ((answer: T) => string) | undefined,
): void {
  const checked = schema.parse(answer)
  io.out(asText === undefined ? `${JSON.stringify(checked, null, 2)}\n` : `${asText(checked).trimEnd()}\n`)
}

/** Prints faults for people; answers the exit code for bad input. */
export function printFaults(io: Io, faults: readonly Fault[]): number {
  for (const fault of faults) io.err(`${sayFault(fault)}\n`)
  return EXIT.badInput
}

/** Runs the rest of a verb with a good value, or prints the faults. */
export async function whenGood<T>(
  io: Io,
  result: Result<T>,
  run: (value: T) => number | Promise<number>,
): Promise<number> {
  return result.ok ? await run(result.value) : printFaults(io, result.faults)
}
