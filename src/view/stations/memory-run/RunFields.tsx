/** What a report can't say of itself: how many runs it stands for, whether they covered all, whether it still counts. */
import { say } from '../../../base/index.ts'
import type { ReportEntry } from '../../../case/index.ts'
import { editReport } from '../../actions/reports.ts'
import { Tick } from '../../controls/fields.tsx'
import { useDesk } from '../../stores/hooks.ts'
import { PassesField } from '../proof/PassesField.tsx'

export function RunFields({ report }: { readonly report: ReportEntry }) {
  const desk = useDesk()
  const { id, run, testPasses, coversAll, overtaken } = report
  return (
    <>
      <PassesField
        label={say('Complete runs')}
        value={testPasses}
        onChange={(passes) => editReport(desk, id, (entry) => withPasses(entry, passes), `passes of ${id}`)}
      />
      <Tick
        label={say('It went over the whole memory: what it does not list passed')}
        checked={coversAll}
        onChange={(checked) => editReport(desk, id, (entry) => ({ ...entry, coversAll: checked }))}
      />
      {run === 'retest' && (
        <Tick
          label={say('Work went on after it: keep it, count it no more')}
          checked={overtaken === true}
          onChange={(checked) => editReport(desk, id, (entry) => ({ ...entry, overtaken: checked }))}
        />
      )}
    </>
  )
}

function withPasses(report: ReportEntry, passes: number | undefined): ReportEntry {
  if (passes !== undefined) return { ...report, testPasses: passes }
  const { testPasses: _, ...unnoted } = report
  return unnoted
}
