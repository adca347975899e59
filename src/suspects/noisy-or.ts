/** The noisy-OR gate (Pearl, Probabilistic Reasoning in Intelligent Systems, 1988, section 4.3.2). */

/** Probability that a finding is bad: 1 - (1 - leak) · Π (1 - q) over the causes that are there. */
export function probabilityBad(leak: number, present: readonly number[]): number {
  let good = 1 - leak
  for (const q of present) good *= 1 - q
  return 1 - good
}
