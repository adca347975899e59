/** The heaviest one-to-one assignment of rows to columns: Kuhn's Hungarian method (1955), with potentials, O(n^3). */

/**
 * @param weights square, whole numbers
 * @returns column of each row, and the sum of their weights
 */
export function heaviestAssignment(weights: readonly (readonly number[])[]): { columns: number[]; weight: number } {
  const size = weights.length
  const search = newSearch(size)
  for (let row = 1; row <= size; row++) addRow(search, row, (r, c) => -(weights[r - 1]?.[c - 1] ?? 0))
  const columns = Array.from({ length: size }, () => 0)
  for (let column = 1; column <= size; column++) columns[(search.rowOf[column] ?? 1) - 1] = column - 1
  const weight = columns.reduce((sum, column, row) => sum + (weights[row]?.[column] ?? 0), 0)
  return { columns, weight }
}

/** Rows and columns count from 1; column 0 stands for the row that is being added. */
interface Search {
  readonly size: number
  readonly rowPotential: Float64Array
  readonly columnPotential: Float64Array
  readonly rowOf: Int32Array
}

const newSearch = (size: number): Search => ({
  size,
  rowPotential: new Float64Array(size + 1),
  columnPotential: new Float64Array(size + 1),
  rowOf: new Int32Array(size + 1),
})

function addRow(search: Search, row: number, costOf: (row: number, column: number) => number): void {
  const { size, rowPotential, columnPotential, rowOf } = search
  const slack = new Float64Array(size + 1).fill(Infinity)
  const cameFrom = new Int32Array(size + 1)
  const visited = new Uint8Array(size + 1)
  rowOf[0] = row
  let column = 0
  // Grows a tree of tight edges from the new row, one column at a time, as Dijkstra's algorithm does by reduced cost.
  do {
    visited[column] = 1
    const at = rowOf[column] ?? 0
    let delta = Infinity
    let next = 0
    for (let j = 1; j <= size; j++) {
      if (visited[j] === 1) continue
      const reduced = costOf(at, j) - (rowPotential[at] ?? 0) - (columnPotential[j] ?? 0)
      if (reduced < (slack[j] ?? 0)) {
        slack[j] = reduced
        cameFrom[j] = column
      }
      if ((slack[j] ?? 0) >= delta) continue
      delta = slack[j] ?? 0
      next = j
    }
    // Potentials move by the least slack: edges in the tree stay tight, one more becomes so, none becomes negative.
    for (let j = 0; j <= size; j++) {
      if (visited[j] === 1) {
        const of = rowOf[j] ?? 0
        rowPotential[of] = (rowPotential[of] ?? 0) + delta
        columnPotential[j] = (columnPotential[j] ?? 0) - delta
      } else slack[j] = (slack[j] ?? 0) - delta
    }
    column = next
  } while (rowOf[column] !== 0)
  // A free column ends the path: every row on it takes the next column, and the new row is in.
  while (column !== 0) {
    const before = cameFrom[column] ?? 0
    rowOf[column] = rowOf[before] ?? 0
    column = before
  }
}
