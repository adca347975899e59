/** Small boards for the spill room: a bare rectangle with just the parts that a test is about. */
import type { z } from 'zod'
import { type BoardModel, type boardSchema, loadBoard } from '../../src/board/index.ts'
import { type Fault, type Result, sayFault } from '../../src/base/index.ts'
import {
  type AreaMark,
  type DamMark,
  type SpillMark,
  spillMarkSchema,
  type Substance,
  substances,
} from '../../src/spill/index.ts'

type BoardInput = z.input<typeof boardSchema>
export type PartInput = BoardInput['parts'][number]

/** Stands far in a corner of every fixture board, where no test looks: a board needs a part. */
const bystander: PartInput = {
  ref: 'X1',
  kind: 'other',
  side: 'top',
  at: { x: 1, y: 1 },
  body: { widthMm: 0.5, lengthMm: 0.5, heightMm: 0.5 },
}

export function spillBoard(
  widthMm: number,
  heightMm: number,
  parts: readonly PartInput[] = [],
  holes: NonNullable<BoardInput['holes']> = [],
): BoardModel {
  const loaded = loadBoard({
    format: 'liftmap-board',
    version: 1,
    name: 'fixture',
    outline: [
      { x: 0, y: 0 },
      { x: widthMm, y: 0 },
      { x: widthMm, y: heightMm },
      { x: 0, y: heightMm },
    ],
    holes: [...holes],
    parts: [bystander, ...parts],
  } satisfies BoardInput)
  return unwrap(loaded)
}

/** A part of one drawn region, a square of `regionMm` in its middle, under a body that is that much wider. */
export function partWithRegion(ref: string, x: number, y: number, more: Partial<PartInput> = {}): PartInput {
  const half = 1.5
  return {
    ref,
    kind: 'other',
    side: 'top',
    at: { x, y },
    body: { widthMm: 8, lengthMm: 6, heightMm: 1 },
    standoffMm: 0.3,
    regions: [
      {
        name: 'A',
        polygon: [
          { x: -half, y: -half },
          { x: half, y: -half },
          { x: half, y: half },
          { x: -half, y: half },
        ],
      },
    ],
    ...more,
  }
}

export function substanceOf(id: string): Substance {
  const found = substances.find((substance) => substance.id === id)
  if (found === undefined) throw new Error(`no substance ${id}`)
  return found
}

export function spillAt(x: number, y: number, more: Partial<z.input<typeof spillMarkSchema>> = {}): SpillMark {
  return spillMarkSchema.parse({
    kind: 'spill',
    id: 'spill-1',
    side: 'top',
    at: { x, y },
    sdMm: 3,
    substance: 'water',
    amount: { volumeMl: 0.5 },
    ...more,
  })
}

export const damAlong = (...path: readonly (readonly [number, number])[]): DamMark => ({
  kind: 'dam',
  id: 'dam-1',
  side: 'top',
  path: path.map(([x, y]) => ({ x, y })),
})

export const areaAt = (x: number, y: number, id = 'area-1'): AreaMark => ({
  kind: 'residue',
  id,
  side: 'top',
  at: { x, y },
  radiusMm: 2,
})

/** The faults of a result; none when it is good. */
export const faultsIn = (result: Result<unknown>): readonly Fault[] => (result.ok ? [] : result.faults)

/** The value of a result, or a throw that says its faults. */
export function unwrap<T>(result: Result<T>): T {
  if (result.ok) return result.value
  throw new Error(result.faults.map(sayFault).join('\n'))
}
