/** What is usual on the bench machine: each figure with its reason. All of them are habits; none forbids. */
import { z } from 'zod'
import { sayData } from '../../base/index.ts'
import shipped from './figures.json' with { type: 'json' }

const figure = z.strictObject({ value: z.number().positive(), reason: z.string().min(1), source: z.string().min(1) })

export const machineFigures = z
  .strictObject({
    hotSpotOverCoreK: figure,
    packageSpreadK: figure,
    hotSpotMostC: figure,
    memoryMostC: figure,
    refittedWorseK: figure,
    sameLoadShare: figure,
    soakHours: figure,
  })
  .parse(sayData(shipped))
