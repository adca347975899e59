/** What the bench can do: preheater, hot air, nozzles. Contradictions are faults, each with its own message. */
import { z } from 'zod'
import { bad, type Fault, faultsFromZod, good, type Result, say } from '../base/index.ts'
import type { BoardModel } from '../board/index.ts'
import { heatAssumptions } from './assumptions.ts'
import { nozzleFault } from './check-setting.ts'

const setC = z.number().min(20).max(600)
export const nozzleSchema = z.strictObject({
  name: z.string().min(1).max(60),
  shape: z.enum(['round', 'square']),
  sizeMm: z.number().positive().max(200).describe('diameter, or edge of a square'),
})
export const equipmentSchema = z.strictObject({
  preheater: z.strictObject({
    minC: setC.default(50),
    maxC: setC,
    widthMm: z.number().positive().max(1000).describe('of the heated patch, along the board’s x'),
    lengthMm: z.number().positive().max(1000),
  }),
  hotAir: z.strictObject({ minC: setC.default(100), maxC: setC }),
  nozzles: z.array(nozzleSchema).max(50),
})
export type Equipment = z.infer<typeof equipmentSchema>
export type Nozzle = z.infer<typeof nozzleSchema>

/** A bench of usual size; common practice, no source. */
export const defaultEquipment: Equipment = {
  preheater: { minC: 50, maxC: 320, widthMm: 260, lengthMm: 180 },
  hotAir: { minC: 100, maxC: 450 },
  nozzles: [
    { name: 'round 8', shape: 'round', sizeMm: 8 },
    { name: 'round 12', shape: 'round', sizeMm: 12 },
    { name: 'square 16', shape: 'square', sizeMm: 16 },
    { name: 'square 20', shape: 'square', sizeMm: 20 },
    { name: 'square 32', shape: 'square', sizeMm: 32 },
    { name: 'square 42', shape: 'square', sizeMm: 42 },
    { name: 'square 48', shape: 'square', sizeMm: 48 },
    { name: 'square 60', shape: 'square', sizeMm: 60 },
  ],
}

/** Equipment from a plain value, or every fault of it: of form, and of limits that contradict each other. */
export function readEquipment(input: unknown): Result<Equipment> {
  const parsed = equipmentSchema.safeParse(input)
  if (!parsed.success) return { ok: false, faults: faultsFromZod(parsed.error, input) }
  const faults = contradictions(parsed.data)
  return faults.length > 0 ? bad(...faults) : good(parsed.data)
}

/** Equipment for one board: contradictions, and that no nozzle is small enough for it; wider ones stay in the drawer. */
export function checkEquipment(model: BoardModel, equipment: Equipment): Fault[] {
  const faults = equipment.nozzles.flatMap((nozzle, i) => nozzleFault(model, nozzle, `$.nozzles[${i}]`) ?? [])
  const isNoneLeft = equipment.nozzles.length > 0 && faults.length === equipment.nozzles.length
  return [...contradictions(equipment), ...(isNoneLeft ? faults : [])]
}

function contradictions(equipment: Equipment): Fault[] {
  const faults: Fault[] = []
  const { preheater, hotAir, nozzles } = equipment
  if (preheater.minC > preheater.maxC)
    faults.push(
      order(
        '$.preheater.minC',
        preheater.minC,
        say('at most the preheater’s greatest, {maxC} °C', { maxC: preheater.maxC }),
      ),
    )
  if (hotAir.minC > hotAir.maxC)
    faults.push(
      order('$.hotAir.minC', hotAir.minC, say('at most the hot air’s greatest, {maxC} °C', { maxC: hotAir.maxC })),
    )
  if (preheater.maxC < heatAssumptions.ambientC.value)
    faults.push(
      order(
        '$.preheater.maxC',
        preheater.maxC,
        say('more than the room, {value} °C', { value: heatAssumptions.ambientC.value }),
      ),
    )
  if (nozzles.length === 0)
    faults.push({
      path: '$.nozzles',
      found: say('no nozzle'),
      expected: say('at least one nozzle'),
      todo: say('Add a nozzle.'),
    })
  for (const [i, { name }] of nozzles.entries()) {
    if (nozzles.findIndex((other) => other.name === name) < i)
      faults.push({ path: `$.nozzles[${i}].name`, found: name, expected: say('a name that no other nozzle has') })
  }
  return faults
}

const order = (path: string, value: number, expected: string): Fault => ({
  path,
  found: `${value} °C`,
  expected,
  todo: say('Correct one of the two limits.'),
})
