/**
 * In: a board model, equipment, a target. Out: temperatures over time, the setting that lifts the target, who else gets hot.
 * Refuses: a setting that the equipment can't give, and limits that contradict each other.
 */
export {
  type Alloy,
  alloyOf,
  crackedFromWords,
  handsOffUntilC,
  type HeatAssumptions,
  heatAssumptions,
  type JointAlloy,
} from './assumptions.ts'
export { prepareAdi } from './adi.ts'
export { type HeatCaution, heatCautions } from './cautions.ts'
export {
  checkEquipment,
  defaultEquipment,
  type Equipment,
  equipmentSchema,
  type Nozzle,
  readEquipment,
} from './equipment.ts'
export { exposureFrom, exposureOf, type ExposureWish, heatOf } from './exposure.ts'
export { findRefit, type RefitAnswer, searchFor } from './find-refit.ts'
export { filmsFor, jetAt } from './films.ts'
export { findSetting, type SettingAnswer, type SettingWish } from './find-setting.ts'
export { type HeatGain, type HeatNetwork, type HeatState, networkOf, zeroState } from './network.ts'
export { bodyLimitOf, isNearHarm } from './part-heat.ts'
export { type HeatedWork, heatLines, recipeWords } from './recipe-words.ts'
export * from './result.ts'
export { sheetStack } from './sheet.ts'
export { type SimulateOptions, simulate } from './simulate.ts'
export {
  type Assembly,
  type Bake,
  bakeHours,
  classTemperatureC,
  floorLifeAtDays,
  floorLifeDays,
  type MoistureLevel,
  NO_BAKE_BODY_C,
  type ProfileLimits,
  profileLimits,
} from './standards.ts'
export { solveSteady, steady, type SteadyField } from './steady.ts'
export { buildThermalBoard, type ThermalBoard, type ThermalBoardOptions } from './thermal-board.ts'
export { driveOf, setGain } from './time-loop.ts'
export { type HeatPurpose, jointWindow } from './wanted.ts'
export { type WhatIf, whatIfs, type WhatIfWish } from './what-ifs.ts'
