/** A card whose readings are well, and how power is judged on it. */
import { judgePower, type PowerInput, type PowerJudgement } from '../../src/measure/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { measured } from './measured.ts'

export const bowline = shippedBoard('bowline-8')
export const wellRails = { '12V': '2k2', VCORE: '0.4', VMEM: '62', '3V3': '1k', '0V9': '12', VPP: '300' }
export const coreStages = ['S1', 'S2', 'S3', 'S4', 'S5', 'S6', 'S7', 'S10', 'S11']
export const atCoreStages = (point: string, ohms: string): Record<string, string> =>
  Object.fromEntries(coreStages.map((ref) => [`${ref} ${point}`, ohms]))
export const well = { ...wellRails, ...atCoreStages('input', '2k') }

export const judged = (typed: Readonly<Record<string, string>>, more: Partial<PowerInput> = {}): PowerJudgement =>
  judgePower(bowline, {
    measurements: measured(typed),
    goodReadings: [],
    leads: { kind: 'zeroed' },
    phase: 'before',
    ...more,
  })
