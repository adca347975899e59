/** How much an outcome tells about a decision: entropies of a joint distribution, in bits. */

export interface Information {
  /** H(D) of the decision variable, before anything is looked at. */
  readonly entropyBefore: number
  /** Σ P(o) · H(D | o). */
  readonly expectedEntropyAfter: number
  /** I(D; O) = H(D) - Σ P(o) H(D | o) = Σ P(d, o) log2(P(d, o) / (P(d) P(o))); never negative. */
  readonly information: number
}

/**
 * The kernel of the ranking of checks. A probe is best where the expected entropy after it is least (de Kleer and
 * Williams 1987, Artificial Intelligence 32:97-130), which is where the mutual information is greatest (Shannon 1948).
 * @param joint P(d, o): row by state of the decision, column by outcome; scaled to sum to one
 * @param outcomes number of columns
 */
export function informationOf(joint: Float64Array, outcomes: number): Information {
  const states = joint.length / outcomes
  const ofState = new Float64Array(states)
  const ofOutcome = new Float64Array(outcomes)
  let total = 0
  for (let at = 0; at < joint.length; at++) {
    const mass = Math.max(0, joint[at] ?? 0)
    const state = Math.floor(at / outcomes)
    ofState[state] = (ofState[state] ?? 0) + mass
    ofOutcome[at % outcomes] = (ofOutcome[at % outcomes] ?? 0) + mass
    total += mass
  }
  if (total <= 0) return { entropyBefore: 0, expectedEntropyAfter: 0, information: 0 }
  let entropyBefore = 0
  for (const mass of ofState) entropyBefore += surprise(mass / total)
  let expectedEntropyAfter = 0
  let information = 0
  for (let at = 0; at < joint.length; at++) {
    const mass = joint[at] ?? 0
    const state = ofState[Math.floor(at / outcomes)] ?? 0
    const outcome = ofOutcome[at % outcomes] ?? 0
    if (mass <= 0 || state <= 0 || outcome <= 0) continue
    expectedEntropyAfter -= (mass / total) * Math.log2(mass / outcome)
    information += (mass / total) * Math.log2((mass / state) * (total / outcome))
  }
  return { entropyBefore, expectedEntropyAfter, information: Math.max(0, information) }
}

const surprise = (probability: number): number => (probability > 0 ? -probability * Math.log2(probability) : 0)
