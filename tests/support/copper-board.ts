/** A bare board with one rail whose copper is drawn: what the search for a short is held against closed forms on. */
import type { Point } from '../../src/base/index.ts'
import { type BoardModel, loadBoard } from '../../src/board/index.ts'
import { contactAt, createSolver, type Sheet, sheetMilliohmOf } from '../../src/measure/index.ts'

export const box = (minX: number, minY: number, maxX: number, maxY: number): Point[] => [
  { x: minX, y: minY },
  { x: maxX, y: minY },
  { x: maxX, y: maxY },
  { x: minX, y: maxY },
]

export interface CopperBoard {
  readonly widthMm: number
  readonly heightMm: number
  readonly copper: readonly (readonly Point[])[]
  readonly capacitors?: readonly Point[]
  readonly thicknessUm?: number
  readonly points?: readonly Point[]
}

export function copperBoard(plan: CopperBoard): BoardModel {
  const capacitors = plan.capacitors ?? [{ x: 2, y: 2 }]
  const loaded = loadBoard({
    format: 'liftmap-board',
    version: 1,
    name: 'copper',
    outline: box(0, 0, plan.widthMm, plan.heightMm),
    parts: capacitors.map((at, i) => ({
      ref: `C${i + 1}`,
      kind: 'capacitor',
      side: 'top',
      at,
      body: { widthMm: 1, lengthMm: 0.5, heightMm: 0.5 },
    })),
    rails: [
      {
        name: 'VMEM',
        feeds: capacitors.map((_, i) => `C${i + 1}`),
        points: (plan.points ?? []).map((at) => ({ side: 'top', at })),
        ...(plan.copper.length === 0
          ? {}
          : { copper: plan.copper.map((polygon) => ({ layer: 'top', polygon, thicknessUm: plan.thicknessUm ?? 35 })) }),
      },
    ],
  })
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.faults))
  return loaded.value
}

/** One sheet in the shape of a polygon, resistance per square as of 35 µm. */
export const OUNCE_MILLIOHM = sheetMilliohmOf(35)

/** Currents into a sheet's nodes for point currents. */
export function currentsOf(
  sheet: Sheet,
  points: readonly { readonly at: Point; readonly ampere: number }[],
): Float64Array {
  const currents = new Float64Array(sheet.cells.length)
  for (const { at, ampere } of points) {
    const contact = contactAt(sheet, at)
    if (contact === undefined) throw new Error(`no copper at ${at.x}, ${at.y}`)
    for (const [i, node] of contact.nodes.entries())
      currents[node] = (currents[node] ?? 0) + ampere * (contact.weights[i] ?? 0)
  }
  return currents
}

export const solved = (sheet: Sheet, points: Parameters<typeof currentsOf>[1]): Float64Array =>
  createSolver(sheet).potentials(currentsOf(sheet, points))
