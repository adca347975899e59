/** What stands between the reports of a run and being counted. */
import { say } from '../../../base/index.ts'
import type { ReportEntry } from '../../../case/index.ts'
import { isAsking, isEmptyRun } from '../../stores/readingStore.ts'
import type { Known } from '../entry.ts'

export function readingLack(
  { present, readings }: Pick<Known, 'present' | 'readings'>,
  run: ReportEntry['run'],
): string | undefined {
  const own = present.reports.flatMap((report) => {
    const reading = report.run === run && report.overtaken !== true ? readings.get(report.id) : undefined
    return reading === undefined ? [] : [{ reading, coversAll: report.coversAll }]
  })
  const failed = own.filter(({ reading }) => reading.state === 'failed').length
  if (failed > 0) return say('{failed, plural, one {# report} other {# reports}} could not be read', { failed })
  const asking = own.filter(({ reading }) => isAsking(reading)).length
  if (asking > 0)
    return say(
      'say how {asking, plural, one {# report} other {# reports}} {asking, plural, one {is} other {are}} read',
      { asking },
    )
  const empty = own.filter(({ reading, coversAll }) => isEmptyRun(reading) && !coversAll).length
  return empty > 0 ? say('no row read of {empty, plural, one {# report} other {# reports}}', { empty }) : undefined
}
