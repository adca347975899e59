/** What waits for the user between the tools and the sheet: names of a report, else two ways to read one. */
import { NamesBar } from './NamesBar.tsx'
import { TwoReadingsBar } from './TwoReadingsBar.tsx'
import { useNamedReport, useUndecided } from './useWaiting.ts'
import { useBoard } from '../../../stores/hooks.ts'

export function AboveSheet() {
  const named = useNamedReport()
  const undecided = useUndecided()
  const model = useBoard()?.model
  if (named !== undefined && model !== undefined) return <NamesBar key={named.id} named={named} model={model} />
  return undecided === undefined ? undefined : <TwoReadingsBar undecided={undecided} />
}
