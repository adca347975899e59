/** The board's stack as one sheet: what it conducts in its plane and stores, per area, from copper layers and laminate. */
import { say } from '../base/index.ts'
import type { BoardDescription } from '../board/index.ts'
import { heatAssumptions } from './assumptions.ts'

export interface SheetStack {
  /** k·d in W/K: in-plane conductivity times thickness. */
  readonly conductanceWPerK: number
  /** ρc·d in J/(m²·K). */
  readonly capacityJPerM2K: number
  /** Empty, or that default copper was used. */
  readonly notes: readonly string[]
}

/**
 * Stored: ρc·d = Σ ρc·t_i·f_i, and what isn't copper is laminate. Carried: k·d = Σ k·t_i·f_i/(2 - f_i) over the layers that
 * hang together: a sheet with the share 1 - f punched out by round holes conducts f/(2 - f) of a whole one (J. C. Maxwell,
 * A Treatise on Electricity and Magnetism, 1873; for cylinders Lord Rayleigh, Phil. Mag. 34, 1892), and planes are punched
 * by the clearances of vias.
 * @param description thickness in mm, layers in µm with the share that is copper; no layers: the stated default stack
 */
export function sheetStack(description: Pick<BoardDescription, 'thicknessMm' | 'copper'>): SheetStack {
  const a = heatAssumptions
  const given = description.copper.length > 0
  const layers = given ? description.copper : a.defaultCopper.value
  const thicknessM = description.thicknessMm / 1000
  const wanted = layers.reduce((sum, { thicknessUm, fill }) => sum + thicknessUm * 1e-6 * fill, 0)
  const copperM = Math.min(thicknessM, wanted)
  const laminateM = thicknessM - copperM
  const plane = (fill: number): number => (fill < a.continuousFromFill.value ? 0 : fill / (2 - fill))
  const carrying = layers.reduce((sum, { thicknessUm, fill }) => sum + thicknessUm * 1e-6 * plane(fill), 0)
  return {
    conductanceWPerK: a.copperKWPerMK.value * Math.min(copperM, carrying) + a.laminateKWPerMK.value * laminateM,
    capacityJPerM2K: a.copperRhoCJPerM3K.value * copperM + a.laminateRhoCJPerM3K.value * laminateM,
    notes: given
      ? thicknessNote(description.copper)
      : [
          say('The board file gives no copper: {length} layers with {value} µm of copper in all are assumed.', {
            length: layers.length,
            value: Math.round(copperM * 1e6),
          }),
        ],
  }
}

function thicknessNote(copper: BoardDescription['copper']): string[] {
  const assumed = copper.filter(({ thicknessFrom }) => thicknessFrom === 'assumed')
  if (assumed.length === 0) return []
  const thicknesses = [...new Set(assumed.map(({ thicknessUm }) => `${thicknessUm} µm`))].reduce((first, next) =>
    say('{first} or {next}', { first, next }),
  )
  return [
    say(
      'The board file does not say how thick {length} of its {length2} copper layers are: {thicknesses} each is assumed.',
      { length: assumed.length, length2: copper.length, thicknesses },
    ),
  ]
}
