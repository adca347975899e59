/**
 * How often a pass may still fail, after so many that did not: upper bounds at 95 % on the chance of one pass.
 * No failure in n: 1 − 0.05^(1/n) exactly, and 3/n as the rule of three (Hanley and Lippman-Hand, JAMA
 * 1983;249(13):1743-1745). With failures: the one-sided bound of Clopper and Pearson (Biometrika 1934;26:404-413), that p
 * at which so few failures would be seen in 5 % of such series. All take passes as independent tries.
 */
export const RISK = 0.05

/** 3/n, never above 1; undefined for no pass. */
export const ruleOfThree = (passes: number): number | undefined => (passes > 0 ? Math.min(1, 3 / passes) : undefined)

const HALVINGS = 60

/**
 * The largest chance of failing that is not refuted at the given risk.
 * @param passes how many ran, a whole number
 * @param failing how many of them failed, 0 … passes
 * @param risk of the bound being too low; 0.05 for 95 %
 * @returns 0 … 1; undefined where no pass ran
 */
export function exactBound(passes: number, failing = 0, risk = RISK): number | undefined {
  if (passes <= 0) return undefined
  if (failing >= passes) return 1
  if (failing === 0) return 1 - risk ** (1 / passes)
  const logChoices = logChoose(passes, failing)
  // At most `failing` failures is likelier than 1/2 while passes · p ≤ failing, so the bound lies above.
  let low = failing / passes
  let high = 1
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2
    if (atMost(passes, failing, middle, logChoices) > risk) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/** P(at most `failing` of `passes` fail) for p > failing / passes: terms shrink from the last one down. */
function atMost(passes: number, failing: number, p: number, logChoices: number): number {
  let term = Math.exp(logChoices + failing * Math.log(p) + (passes - failing) * Math.log1p(-p))
  let sum = term
  for (let i = failing; i > 0 && term > sum * Number.EPSILON; i--) {
    term *= (i / (passes - i + 1)) * ((1 - p) / p)
    sum += term
  }
  return sum
}

function logChoose(n: number, k: number): number {
  let sum = 0
  for (let i = 1; i <= k; i++) sum += Math.log((n - k + i) / i)
  return sum
}

/** How many passes without an error bring the exact bound down to a chance: ln 0.05 / ln(1 − chance), rounded up. */
export const passesFor = (chance: number): number => Math.ceil(Math.log(RISK) / Math.log1p(-chance))
