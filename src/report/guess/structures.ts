/** The ways in which lines belong together: each a row, rows over several lines, objects of JSON. */
import type { RecordShape } from '../recipe.ts'
import { recordCutter } from '../text/records.ts'
import type { SampleLine } from '../text/shapes.ts'
import { trimBlanks } from '../text/text.ts'

export interface View {
  readonly kind: 'lines' | 'records' | 'json'
  readonly record: RecordShape | undefined
  /** What is read as one line; the number is that of its first line. */
  readonly lines: readonly SampleLine[]
}

const MAX_LINES = 4000
const FEWEST_RECORDS = 2
const MOST_LINES_A_RECORD = 24

/**
 * Ways to see the beginning of a report, the likelier first: as objects of JSON where it is some, line by line, or as
 * records of several lines.
 * @param all lines of the beginning with something in them
 */
export function viewsOf(all: readonly SampleLine[], isName: (text: string) => boolean): View[] {
  const plain: View = { kind: 'lines', record: undefined, lines: all }
  const json = jsonView(all, isName)
  if (json !== undefined) return [json, plain]
  return [plain, ...recordViews(all)]
}

function jsonView(all: readonly SampleLine[], isName: (text: string) => boolean): View | undefined {
  const opens = all.find((line) => /^\s*[[{]/.test(line.text))
  if (opens === undefined || !all.some((line) => /"[^"]*"\s*:/.test(line.text))) return undefined
  const lines: SampleLine[] = []
  const cutter = recordCutter(
    { layout: { kind: 'json' } },
    (text, number, isWhole) => {
      if (isWhole && text.startsWith('{')) lines.push({ number, text })
    },
    isName,
  )
  for (const line of all.slice(0, MAX_LINES)) cutter?.line(line.text, line.number)
  cutter?.end()
  return lines.length === 0 ? undefined : { kind: 'json', record: undefined, lines }
}

function recordViews(all: readonly SampleLine[]): View[] {
  const lines = all.slice(0, MAX_LINES)
  const shapes: RecordShape[] = startsOf(lines).map((text): RecordShape => ({ kind: 'starts', text }))
  if (isParted(lines)) shapes.push({ kind: 'blank' })
  return shapes.flatMap((record) => {
    const joined: SampleLine[] = []
    const cutter = recordCutter({ layout: { kind: 'pairs' }, record }, (text, number) => joined.push({ number, text }))
    let last = 0
    for (const line of lines) {
      // Lines with nothing in them are not in the sample, but they part records.
      if (line.number > last + 1) cutter?.line('', line.number - 1)
      cutter?.line(line.text, line.number)
      last = line.number
    }
    cutter?.end()
    return joined.length < FEWEST_RECORDS ? [] : [{ kind: 'records' as const, record, lines: joined }]
  })
}

/** What a line begins with before its first number or sign: `Address`, `Error #`. */
const leadOf = (text: string): string =>
  trimBlanks((/^[^\d:=]*[:=]?/.exec(trimBlanks(text))?.[0] ?? '').replace(/(?:\s+[0-9a-f]{2})+\s*$/i, ''))

/** Texts that begin records: each comes again and again with the same other lines behind it. */
function startsOf(lines: readonly SampleLine[]): string[] {
  const leads = lines.map((line) => leadOf(line.text))
  const found: string[] = []
  for (const lead of new Set(leads)) {
    if (lead.length < 2 || found.length >= 1) continue
    const at = leads.flatMap((other, i) => (other === lead ? [i] : []))
    if (at.length < FEWEST_RECORDS) continue
    const gaps = at.slice(1).map((to, i) => leads.slice((at[i] ?? 0) + 1, to))
    const lengths = gaps.map((gap) => gap.length)
    if (lengths.some((length) => length > MOST_LINES_A_RECORD)) continue
    const whole = gaps.filter((gap) => gap.length > 0 && gap.join('\n') === gaps[0]?.join('\n')).length
    if (whole >= 0.8 * gaps.length) found.push(lead)
  }
  return found
}

/** Blank lines part groups of several lines that begin alike. */
function isParted(lines: readonly SampleLine[]): boolean {
  const groups: string[][] = []
  let last = -1
  for (const line of lines) {
    if (line.number > last + 1 || groups.length === 0) groups.push([])
    groups.at(-1)?.push(leadOf(line.text))
    last = line.number
  }
  const several = groups.filter((group) => group.length >= 2 && group.length <= MOST_LINES_A_RECORD)
  const counts = new Map<string, number>()
  for (const group of several) counts.set(group.join('\n'), (counts.get(group.join('\n')) ?? 0) + 1)
  return Math.max(0, ...counts.values()) >= FEWEST_RECORDS
}
