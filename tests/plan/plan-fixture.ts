/** A plain board for plans, and exposures made from numbers: who melts whom, who is merely warm. */
import { sayFault } from '../../src/base/index.ts'
import { type BoardModel, loadBoard } from '../../src/board/index.ts'
import type { Exposure, PartHeat } from '../../src/heat/index.ts'
import { type PlanAnswer, type PlanInput, planRework } from '../../src/plan/index.ts'

export interface PlainPart {
  readonly ref: string
  readonly x: number
  readonly y?: number
  readonly side?: 'top' | 'bottom'
  readonly price?: number
  readonly heatCount?: number
  readonly package?: string
  readonly bonding?: 'none' | 'corner' | 'edge' | 'underfill'
  readonly moistureLevel?: '1' | '3' | '4'
  readonly kind?: 'core' | 'memory' | 'power-stage' | 'capacitor' | 'connector'
  readonly body?: { readonly widthMm: number; readonly lengthMm: number; readonly heightMm: number }
  readonly jointAlloy?: string
}

/** Parts of 10 × 10 × 1 mm where no package is named, on a board of 400 × 100 mm. */
export function plainBoard(parts: readonly PlainPart[]): BoardModel {
  const board = loadBoard({
    format: 'liftmap-board',
    version: 1,
    name: 'plain',
    outline: [
      { x: 0, y: 0 },
      { x: 400, y: 0 },
      { x: 400, y: 100 },
      { x: 0, y: 100 },
    ],
    parts: parts.map(({ ref, x, y = 50, side = 'top', ...rest }) => ({
      ref,
      kind: 'memory',
      side,
      at: { x, y },
      ...(rest.package === undefined ? { body: { widthMm: 10, lengthMm: 10, heightMm: 1 } } : {}),
      ...rest,
    })),
  })
  if (!board.ok) throw new Error(board.faults.map(sayFault).join('\n'))
  return board.value
}

export const heatAt = (ref: string, jointPeakC: number, bodyPeakC = jointPeakC): PartHeat => ({
  ref,
  jointPeakC,
  bodyPeakC,
  aboveLiquidusS: jointPeakC >= 217 ? 40 : 0,
  maxRampCPerS: 1,
  melts: jointPeakC >= 217,
  overLimit: bodyPeakC > 260,
  bodyLimitC: 260,
  remarks: [],
})

export function exposureOn(
  target: string,
  jointC: Readonly<Record<string, number>>,
  minutes = 5,
  side: 'top' | 'bottom' = 'top',
): Exposure {
  return {
    target,
    setting: {
      side,
      preheatC: 120,
      preheatS: 120,
      airC: 340,
      airS: 90,
      nozzle: { name: 'made up', shape: 'square', sizeMm: 16 },
      at: { x: 0, y: 0 },
      shields: [],
    },
    minutes,
    neighbours: Object.entries(jointC).map(([ref, peakC]) => heatAt(ref, peakC)),
  }
}

export function exposuresOf(table: Readonly<Record<string, Readonly<Record<string, number>>>>): Map<string, Exposure> {
  return new Map(Object.entries(table).map(([ref, jointC]) => [ref, exposureOn(ref, jointC)]))
}

export function planned(input: PlanInput): PlanAnswer {
  const answer = planRework(input)
  if (!answer.ok) throw new Error(answer.faults.map(sayFault).join('\n'))
  return answer.value
}

export const totalOf = ({ best }: PlanAnswer): number => best.cost + best.exposureCost

/** `lift U2`, `refit U2 U3`, in order. */
export const passesOf = ({ best }: PlanAnswer): string[] =>
  best.steps
    .filter(({ action }) => action === 'lift' || action === 'refit')
    .map(({ action, refs }) => `${action} ${refs.join(' ')}`)
