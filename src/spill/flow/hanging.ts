/** A liquid on a side that faces down: the largest drop that hangs there; what is more drips off. */

/** Step along the profile and least curvature radius of the sweep, in capillary lengths. */
const STEP = 0.02
const LEAST_APEX_RADIUS = 0.3
const APEX_RATIO = 1.05
const SWEEP = 70
const LONGEST_PROFILE = 9
const TABLE_STEP_DEG = 10

/**
 * Volume in capillary lengths cubed of the largest drop that hangs from a level ceiling at a contact angle in degrees
 * (1 … 179): the greatest volume over all axially symmetric profiles of the Young–Laplace equation below a plane. There the
 * drop loses its hold (Wente, Pacific J. Math. 88 (1980) 421–470; Zhang and Zhou, J. Fluid Mech. (2023), static stability).
 */
export function largestHangingDrop(contactAngleDeg: number): number {
  const theta = (contactAngleDeg * Math.PI) / 180
  let most = 0
  for (let k = 0; k < SWEEP; k++) most = Math.max(most, volumeFrom(LEAST_APEX_RADIUS * APEX_RATIO ** k, theta))
  return most
}

type State = readonly [r: number, z: number, phi: number]

/** dr/ds, dz/ds, dφ/ds of a pendant drop with z upwards from its apex, all in capillary lengths. */
function slope([r, z, phi]: State, apexRadius: number): State {
  const around = r > 1e-5 ? Math.sin(phi) / r : 1 / apexRadius
  return [Math.cos(phi), Math.sin(phi), 2 / apexRadius - z - around]
}

const moved = ([r, z, phi]: State, [dr, dz, dphi]: State, by: number): State => [
  r + by * dr,
  z + by * dz,
  phi + by * dphi,
]

/** One step of the classical Runge–Kutta method. */
function stepped(from: State, apexRadius: number): State {
  const a = slope(from, apexRadius)
  const b = slope(moved(from, a, STEP / 2), apexRadius)
  const c = slope(moved(from, b, STEP / 2), apexRadius)
  const d = slope(moved(from, c, STEP), apexRadius)
  const mean: State = [
    (a[0] + 2 * b[0] + 2 * c[0] + d[0]) / 6,
    (a[1] + 2 * b[1] + 2 * c[1] + d[1]) / 6,
    (a[2] + 2 * b[2] + 2 * c[2] + d[2]) / 6,
  ]
  return moved(from, mean, STEP)
}

/** The greatest volume at which the profile from this apex meets the ceiling at the angle; 0 where it never does. */
function volumeFrom(apexRadius: number, theta: number): number {
  // A hair off the axis, where sin φ / r has no value; there the profile is a sphere of the apex radius.
  let state: State = [1e-6, 0, 1e-6 / apexRadius]
  let volume = 0
  let most = 0
  for (let s = 0; s < LONGEST_PROFILE; s += STEP) {
    const next = stepped(state, apexRadius)
    if (next[0] <= 0 || next[2] < 0 || next[2] > Math.PI) break
    const slice = Math.PI * ((state[0] + next[0]) / 2) ** 2 * (next[1] - state[1])
    // A profile may meet the angle several times; each is a drop in balance, and the largest is looked for.
    if ((state[2] - theta) * (next[2] - theta) <= 0) {
      const share = (theta - state[2]) / (next[2] - state[2] || 1)
      most = Math.max(most, volume + share * slice)
    }
    volume += slice
    state = next
  }
  return most
}

let table: readonly number[] | undefined

/** The same between the entries of a table of each 10°, for the many angles of one spread. */
export function hangingVolumeMm3(capillaryLengthMm: number, contactAngleDeg: number): number {
  table ??= Array.from({ length: 180 / TABLE_STEP_DEG - 1 }, (_, i) => largestHangingDrop((i + 1) * TABLE_STEP_DEG))
  const at = Math.min(table.length - 1, Math.max(0, contactAngleDeg / TABLE_STEP_DEG - 1))
  const below = Math.floor(at)
  const [low = 0, high = low] = [table[below], table[below + 1]]
  return (low + (at - below) * (high - low)) * capillaryLengthMm ** 3
}
