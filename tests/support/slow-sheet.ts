/** The sheet solved plainly: Gauss and Seidel over the cells' neighbours, as the law of Kirchhoff is written down. */
import { cellAt, cellCentre } from '../../src/base/index.ts'
import type { Sheet } from '../../src/measure/index.ts'

/** @returns potentials with a mean of zero; equal conductances of `perMilliohm` between neighbours */
export function slowPotentials(sheet: Sheet, currents: Float64Array, perMilliohm: number): number[] {
  const n = sheet.cells.length
  const mean = currents.reduce((sum, value) => sum + value, 0) / n
  const neighbours = Array.from({ length: n }, (_, node) => {
    const { x, y } = cellCentre(sheet.grid, sheet.cells[node] ?? 0)
    const d = sheet.grid.cellMm
    return [
      { x: x - d, y },
      { x: x + d, y },
      { x, y: y - d },
      { x, y: y + d },
    ]
      .map((at) => cellAt(sheet.grid, at))
      .map((cell) => (cell < 0 ? -1 : (sheet.nodeOf[cell] ?? -1)))
      .filter((other) => other >= 0)
  })
  const potentials = Array.from({ length: n }, () => 0)
  for (let sweep = 0; sweep < 40_000; sweep++) {
    let change = 0
    for (let i = 0; i < n; i++) {
      const around = neighbours[i] ?? []
      const sum = around.reduce((total, j) => total + (potentials[j] ?? 0), 0)
      const next = (sum + ((currents[i] ?? 0) - mean) / perMilliohm) / around.length
      change = Math.max(change, Math.abs(next - (potentials[i] ?? 0)))
      potentials[i] = next
    }
    if (change < 1e-13) break
  }
  const middle = potentials.reduce((sum, value) => sum + value, 0) / n
  return potentials.map((value) => value - middle)
}
