/** A heat setting as it is printed: plain for JSON, and as one line for people. */
import type { z } from 'zod'
import type { HeatSetting } from '../heat/index.ts'
import type { settingOutput } from './output.ts'

export type PrintedSetting = z.infer<typeof settingOutput>

export function settingOf(setting: HeatSetting | undefined): PrintedSetting | null {
  if (setting === undefined) return null
  return {
    ...setting,
    nozzle: { ...setting.nozzle },
    at: { ...setting.at },
    shields: setting.shields.map((shield) => ({ ...shield })),
  }
}

/** Set temperatures are those of the tools: the board stays far below its preheater. */
export function saySettings({ preheatC, preheatS, airC, airS, nozzle, side }: PrintedSetting): string {
  const preheat = `preheater set to ${preheatC.toFixed(0)} °C for ${preheatS.toFixed(0)} s`
  return `${side} side up, ${preheat}, then air ${airC.toFixed(0)} °C for ${airS.toFixed(0)} s, ${nozzle.shape} nozzle ${nozzle.sizeMm} mm`
}
