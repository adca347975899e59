/** A bench meter over SCPI: what of it others use. */
export type { MeterLine } from './line.ts'
export { connectMeter, type Meter, type MeterTimes } from './meter.ts'
export { type MeterNumber, meterNumber } from './numbers.ts'
export { type MeterIdentity, type MeterTrouble, readIdentity, readTrouble } from './replies.ts'
