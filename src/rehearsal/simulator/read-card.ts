/** A simulated card's report, read as the program reads every report. */
import { type Result, good } from '../../base/index.ts'
import { readReport, type Tally, tallyTable } from '../../report/index.ts'
import type { SimulatedCard } from './types.ts'

/** The tally of the card's own report, or the faults that a reader would be shown. */
export async function tallyOfCard({ model, observations }: SimulatedCard): Promise<Result<Tally>> {
  const { report } = observations
  if (report.kind === 'table') return good(tallyTable(model, report.rows))
  const bytes = new TextEncoder().encode(report.text)
  const read = await readReport(piecesOf(bytes), { model, recipe: report.recipe, mayBeClean: true })
  return read.ok ? good(read.value.tally) : read
}

async function* piecesOf(bytes: Uint8Array): AsyncIterable<Uint8Array> {
  yield bytes
}
