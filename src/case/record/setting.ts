/** A heat setting as one line. Set temperatures are those of the tools: the board stays far below its preheater. */
import type { HeatSetting } from '../../heat/index.ts'

export function saySettingOf({ preheatC, preheatS, airC, airS, nozzle, side, shields }: HeatSetting): string {
  const preheat = preheatS > 0 ? `preheater ${preheatC.toFixed(0)} °C for ${preheatS.toFixed(0)} s, ` : ''
  const covered = shields.map(({ ref, kind }) => `, ${ref} under ${kind === 'tape' ? 'tape' : 'a heat sink'}`).join('')
  return `${side} side up, ${preheat}air ${airC.toFixed(0)} °C for ${airS.toFixed(0)} s, ${nozzle.shape} nozzle ${nozzle.sizeMm} mm${covered}`
}
