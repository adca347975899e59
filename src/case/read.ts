/** Text of a case file to a case: parsed, checked as strictly as a board, older versions migrated, newer ones refused. */
import { bad, type Fault, faultsFromZod, good, parseJson, type Result, showValue, valueAt, say } from '../base/index.ts'
import { CASE_VERSION, migrateCase } from './migrate.ts'
import { type Case, caseSchema } from './schema.ts'

/**
 * @param text JSON text of a case file
 * @param name how faults call the file
 * @returns the case, or every fault with its JSON path
 */
export function readCase(text: string, name = 'case'): Result<Case> {
  const parsed = parseJson(text, name)
  return parsed.ok ? loadCase(parsed.value) : parsed
}

/** As `readCase`, from a plain value. */
export function loadCase(input: unknown): Result<Case> {
  const kindFault = faultOfKind(input)
  if (kindFault !== undefined) return bad(kindFault)
  const present = isPlain(input) ? migrateCase(input) : input
  const parsed = caseSchema.safeParse(present)
  if (!parsed.success) return bad(...faultsFromZod(parsed.error, present))
  const faults = [
    ...repeatedIds(parsed.data, 'marks'),
    ...repeatedIds(parsed.data, 'reports'),
    ...unfilledReports(parsed.data),
  ]
  return faults.length > 0 ? bad(...faults) : good(parsed.data)
}

const isPlain = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

function faultOfKind(input: unknown): Fault | undefined {
  const format = valueAt(input, ['format'])
  if (format !== 'liftmap-case') {
    return {
      path: '$.format',
      found: showValue(format),
      expected: 'liftmap-case',
      todo: say('This is not a case file. Boards and reports are dropped on the sheet of an open case.'),
    }
  }
  const version = valueAt(input, ['version'])
  if (typeof version === 'number' && version > CASE_VERSION) {
    return {
      path: '$.version',
      found: showValue(version),
      expected: say('at most {most}', { most: CASE_VERSION }),
      todo: say('This case was saved by a newer Liftmap. Update this one and open it again.'),
    }
  }
  return undefined
}

function repeatedIds(caseFile: Case, field: 'marks' | 'reports'): Fault[] {
  const seen = new Set<string>()
  return caseFile[field].flatMap(({ id }, i) => {
    const again = seen.has(id)
    seen.add(id)
    if (!again) return []
    return [
      {
        path: `$.${field}[${i}].id`,
        found: say('{id} a second time', { id: showValue(id) }),
        expected: say('an id of its own for each {field, select, marks {mark} other {report}}', { field }),
      },
    ]
  })
}

function unfilledReports(caseFile: Case): Fault[] {
  return caseFile.reports.flatMap((report, i) => {
    const given = [report.path, report.text, report.table].filter((field) => field !== undefined).length
    if (given === 1) return []
    return [
      {
        path: `$.reports[${i}]`,
        found: say('{given} of path, text and table', { given }),
        expected: say('exactly one of them'),
      },
    ]
  })
}
