/**
 * In: a board model, equipment, a target. Out: temperatures over time, the setting that lifts the target, who else gets hot.
 * Refuses: a setting that the equipment can't give, and limits that contradict each other.
 */
export { type Alloy, alloyOf, type HeatAssumptions, heatAssumptions, type JointAlloy } from './assumptions.ts'
export * from './result.ts'
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
export { buildThermalBoard, type ThermalBoard, type ThermalBoardOptions } from './thermal-board.ts'
