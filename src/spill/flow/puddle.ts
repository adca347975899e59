/** Puddles, drops and gaps: how high a liquid stands, how fast a gap draws it in, what keeps it out. */

/** Standard acceleration of gravity in m/s². Source: 3rd CGPM 1901. */
export const GRAVITY_MS2 = 9.80665

const sine = (degrees: number): number => Math.sin((degrees * Math.PI) / 180)
const cosine = (degrees: number): number => Math.cos((degrees * Math.PI) / 180)

/** Capillary length lc = √(γ/(ρ·g)) in mm, from surface tension in N/m and density in kg/m³ (de Gennes et al. 2003). */
export function capillaryLengthMm(surfaceTensionNM: number, densityKgM3: number): number {
  return 1000 * Math.sqrt(surfaceTensionNM / (densityKgM3 * GRAVITY_MS2))
}

/** Height in mm of a wide free puddle, h = 2·lc·sin(θ/2) (de Gennes et al. 2003). */
export function puddleHeightMm(surfaceTensionNM: number, densityKgM3: number, contactAngleDeg: number): number {
  return 2 * capillaryLengthMm(surfaceTensionNM, densityKgM3) * sine(contactAngleDeg / 2)
}

/** Base radius in mm of a spherical cap: V = π·a³·(2+cosθ)·(1−cosθ)²/(3·sin³θ), the same as π·h·(3a²+h²)/6, h = a·tan(θ/2). */
export function capRadiusMm(volumeMm3: number, contactAngleDeg: number): number {
  const heightPerRadius = Math.tan((contactAngleDeg * Math.PI) / 360)
  const volumePerCube = (Math.PI * heightPerRadius * (3 + heightPerRadius * heightPerRadius)) / 6
  return Math.cbrt(volumeMm3 / volumePerCube)
}

/**
 * Mean height in mm of a sessile drop of any size: that of a spherical cap, but never above the free puddle's.
 * Both bounds hold (gravity flattens a cap, a rim rounds a puddle), so this is the lower of two upper bounds.
 */
export function meanDropHeightMm(volumeMm3: number, puddleMm: number, contactAngleDeg: number): number {
  const radiusMm = capRadiusMm(volumeMm3, contactAngleDeg)
  return Math.min(puddleMm, volumeMm3 / (Math.PI * radiusMm * radiusMm))
}

interface GapLiquid {
  readonly viscosityPaS: number
  readonly surfaceTensionNM: number
  readonly contactAngleDeg: number
}

/**
 * Seconds until a gap has drawn a liquid in over a length, t = 3·μ·L²/(γ·g·cosθ) (Washburn 1921 between plates, the
 * underfill form); Infinity from 90° on, where nothing is drawn in.
 */
export function washburnTimeS(liquid: GapLiquid, lengthMm: number, gapMm: number): number {
  const pull = liquid.surfaceTensionNM * (gapMm / 1000) * cosine(liquid.contactAngleDeg)
  if (pull <= 0 || liquid.contactAngleDeg >= 90) return Infinity
  return (3 * liquid.viscosityPaS * (lengthMm / 1000) ** 2) / pull
}

/** Pressure in Pa that it takes to press a liquid into a gap between plates, −2·γ·cosθ/g; 0 where it wets (Laplace). */
export function entryPressurePa(surfaceTensionNM: number, contactAngleDeg: number, gapMm: number): number {
  return Math.max(0, (-2 * surfaceTensionNM * cosine(contactAngleDeg)) / (gapMm / 1000))
}
