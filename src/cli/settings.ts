/** A heat setting as it is printed in JSON: plain. */
import type { z } from 'zod'
import type { HeatSetting } from '../heat/index.ts'
import type { settingOutput } from './output.ts'

export type PrintedSetting = z.infer<typeof settingOutput>

/** A copy of a setting without the read-only types, for the schema of the output; null where there is no setting. */
export function settingOf(setting: HeatSetting | undefined): PrintedSetting | null {
  if (setting === undefined) return null
  return {
    ...setting,
    nozzle: { ...setting.nozzle },
    at: { ...setting.at },
    ...(setting.airRamp === undefined ? {} : { airRamp: { ...setting.airRamp } }),
    ...(setting.preheater === undefined
      ? {}
      : { preheater: { ...setting.preheater, at: { ...setting.preheater.at } } }),
    shields: setting.shields.map((shield) => ({ ...shield })),
  }
}
