/**
 * How well a place of the short explains the readings, with the unknown offset and the copper's unknown scale summed out.
 *
 * Reading i is scale · m_i + offset + noise. The offset (the short itself, ground, leads) is flat: taking the mean off
 * readings and model sums it out exactly. With a = |m|²/sd², b = m·y/sd², c = |y|²/sd² of what is left (each reading by its own sd), the density at
 * scale e^u is exp(-(c - 2 b e^u + a e^2u)/2), and u is normal about 0: a one-dimensional integral, by Gauss and Hermite
 * about its peak.
 */

/** Nodes and weights for the weight exp(-t²). Abramowitz and Stegun, table 25.10, n = 7. */
const NODES = [0, 0.8162878828589647, 1.6735516287674714, 2.651961356835233] as const
const WEIGHTS = [0.8102646175568073, 0.4256072526101278, 0.05451558281912703, 0.000971781245099519] as const

export interface Scaled {
  /** ln of the integral over the scale, without the term -c/2 that all places share. */
  readonly logEvidence: number
  /** Natural logarithm of the likeliest scale, and its variance about that. */
  readonly u: number
  readonly uVariance: number
}

/** @param sdLog of the scale; 0 where it is known to be 1 */
export function sumOutScale(a: number, b: number, sdLog: number): Scaled {
  if (sdLog === 0) return { logEvidence: b - a / 2, u: 0, uVariance: 0 }
  const precision = 1 / (sdLog * sdLog)
  const u = peakOf(a, b, precision)
  const at = (v: number): number => b * Math.exp(v) - (a / 2) * Math.exp(2 * v) - (precision / 2) * v * v
  const curvature = precision - b * Math.exp(u) + 2 * a * Math.exp(2 * u)
  const uVariance = 1 / Math.max(curvature, precision * FLATTEST)
  const spread = Math.sqrt(2 * uVariance)
  const peak = at(u)
  let sum = WEIGHTS[0]
  for (let k = 1; k < NODES.length; k++) {
    const t = NODES[k] ?? 0
    const weight = (WEIGHTS[k] ?? 0) * Math.exp(t * t)
    sum += weight * (Math.exp(at(u + spread * t) - peak) + Math.exp(at(u - spread * t) - peak))
  }
  return { logEvidence: peak + Math.log(sum * spread * Math.sqrt(precision / (2 * Math.PI))), u, uVariance }
}

const FLATTEST = 0.01
const PEAK_STEPS = 40
const NEAR_ENOUGH = 1e-9

/** Where b e^u - a e^2u - precision u is 0: Newton's steps, kept within the bracket. */
function peakOf(a: number, b: number, precision: number): number {
  const fitted = b > 0 && a > 0 ? Math.log(b / a) : -Infinity
  let low = Math.min(0, Math.max(fitted, -FARTHEST))
  let high = Math.min(FARTHEST, Math.max(0, fitted))
  let u = 0
  for (let step = 0; step < PEAK_STEPS; step++) {
    const first = b * Math.exp(u)
    const second = a * Math.exp(2 * u)
    const slope = first - second - precision * u
    if (slope > 0) low = u
    else high = u
    const newton = u - slope / (first - 2 * second - precision)
    const next = newton > low && newton < high ? newton : (low + high) / 2
    if (Math.abs(next - u) < NEAR_ENOUGH) return next
    u = next
  }
  return u
}

const FARTHEST = 12

export interface Evidence {
  /** For each node as the place of the short, up to a constant that all share. */
  readonly logEvidence: Float64Array
  readonly u: Float64Array
  readonly uVariance: Float64Array
  /** Weighted means of the modelled readings at scale 1 and of those taken, mV, and the offset's variance, mV2. */
  readonly modelMean: Float64Array
  readonly readMean: Float64Array
  readonly offsetVariance: Float64Array
  /** Least weighted square of what is left, the scale's own term among it, and the node that has it. */
  readonly leastSquare: number
  readonly leastAt: number
  /** Mean over the nodes of |m|²/sd²: how much the readings would differ, in standard deviations squared. */
  readonly expectedSignal: number
  /** |y|²/sd² after the mean is taken off: 0 where all readings are the same. */
  readonly readSignal: number
}

/** What one point reads for every place of the short. */
export interface Drop {
  /** Modelled potential with the short at each node, up to a constant of the node, mV. */
  readonly millivolt: Float64Array
  /** Variance beyond that of every reading, mV2, at the few nodes so near that the short's own width counts. */
  readonly looser: ReadonlyMap<number, number>
}

/**
 * @param millivolts the readings, in the order of the drops
 * @param sdMillivolt of one reading, noise and shape together
 */
export function weighPlaces(
  drops: readonly Drop[],
  millivolts: readonly number[],
  sdMillivolt: number,
  sdLog: number,
): Evidence {
  const nodes = drops[0]?.millivolt.length ?? 0
  const n = drops.length
  const variance = sdMillivolt * sdMillivolt
  const evidence = {
    logEvidence: new Float64Array(nodes),
    u: new Float64Array(nodes),
    uVariance: new Float64Array(nodes),
    modelMean: new Float64Array(nodes),
    readMean: new Float64Array(nodes),
    offsetVariance: new Float64Array(nodes),
  }
  const near = new Set(drops.flatMap(({ looser }) => [...looser.keys()]))
  const weights = new Float64Array(n).fill(1 / variance)
  let leastSquare = Infinity
  let leastAt = 0
  let signal = 0
  const precision = sdLog === 0 ? 0 : 1 / (sdLog * sdLog)
  for (let node = 0; node < nodes; node++) {
    const isNear = near.has(node)
    let whole = 0
    let logWeights = 0
    let meanModel = 0
    let meanRead = 0
    for (let i = 0; i < n; i++) {
      if (isNear) weights[i] = 1 / (variance + (drops[i]?.looser.get(node) ?? 0))
      const weight = weights[i] ?? 0
      whole += weight
      if (isNear) logWeights += Math.log(weight * variance)
      meanModel += weight * (drops[i]?.millivolt[node] ?? 0)
      meanRead += weight * (millivolts[i] ?? 0)
    }
    meanModel /= whole
    meanRead /= whole
    let a = 0
    let b = 0
    let c = 0
    for (let i = 0; i < n; i++) {
      const weight = weights[i] ?? 0
      const m = (drops[i]?.millivolt[node] ?? 0) - meanModel
      const y = (millivolts[i] ?? 0) - meanRead
      a += weight * m * m
      b += weight * m * y
      c += weight * y * y
    }
    if (isNear) weights.fill(1 / variance)
    const scaled = sumOutScale(a, b, sdLog)
    evidence.logEvidence[node] = scaled.logEvidence - c / 2 + (logWeights - Math.log((whole * variance) / n)) / 2
    evidence.u[node] = scaled.u
    evidence.uVariance[node] = scaled.uVariance
    evidence.modelMean[node] = meanModel
    evidence.readMean[node] = meanRead
    evidence.offsetVariance[node] = 1 / whole
    signal += a / nodes
    const scale = Math.exp(scaled.u)
    const square = c - 2 * b * scale + a * scale * scale + precision * scaled.u * scaled.u
    if (square >= leastSquare) continue
    leastSquare = square
    leastAt = node
  }
  const readSignal = squareAboutMean(millivolts) / variance
  return { ...evidence, leastSquare: Math.max(0, leastSquare), leastAt, expectedSignal: signal, readSignal }
}

function squareAboutMean(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length
  return values.reduce((sum, value) => sum + (value - mean) ** 2, 0)
}
