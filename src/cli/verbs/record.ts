/** `liftmap record CASE --for owner|technician|intake`: the record of a visit or the slip of its intake, as HTML or as a PDF. */
import {
  type Audience,
  proofOf,
  type RecordDocument,
  recordHtml,
  recordOf,
  recordPdfDefinition,
} from '../../case/index.ts'
import { EXIT, printFaults, WrongUsage, whenGood } from '../answer.ts'
import { type AssessedCase, assessCaseFile } from '../files.ts'
import type { Io } from '../io.ts'
import { pdfBytes } from '../pdf.ts'

export interface RecordOptions {
  readonly for: string
  readonly date?: string | undefined
  readonly out?: string | undefined
  readonly force?: boolean | undefined
}

/**
 * Prints the record as HTML, or writes HTML or PDF by the ending of `out`. Refuses another ending, an audience that
 * it does not know, and a day that is none. Returns the exit code.
 */
export async function runRecord(io: Io, file: string, options: RecordOptions): Promise<number> {
  const audience = audienceFrom(options.for)
  const today = dayFrom(options.date)
  const { out } = options
  if (out !== undefined && !/\.(?:html?|pdf)$/i.test(out))
    throw new WrongUsage(`Found --out ${out}, expected a name that ends in .html or .pdf.`)
  return await whenGood(io, await assessCaseFile(io, file), async (opened) => {
    const record = recordOfCase(opened, audience, today)
    if (out === undefined) {
      io.out(recordHtml(record))
      return EXIT.fine
    }
    const content = /\.pdf$/i.test(out) ? await pdfBytes(recordPdfDefinition(record)) : recordHtml(record)
    const written = io.write(out, content, { force: options.force === true, inputs: [file] })
    return written.ok ? EXIT.fine : printFaults(io, written.faults)
  })
}

const recordOfCase = (opened: AssessedCase, audience: Audience, today: string): RecordDocument =>
  recordOf({ ...opened, proof: proofOf(opened), audience, today })

function audienceFrom(word: string): Audience {
  if (word === 'owner' || word === 'technician' || word === 'intake') return word
  throw new WrongUsage(`Found --for ${word}, expected owner, technician or intake.`)
}

/** The clock is read only where no day is handed in. */
function dayFrom(word: string | undefined): string {
  if (word === undefined) return new Date().toISOString().slice(0, 10)
  const day = new Date(`${word}T00:00:00Z`)
  if (/^\d{4}-\d\d-\d\d$/.test(word) && !Number.isNaN(day.getTime()) && day.toISOString().startsWith(word)) return word
  throw new WrongUsage(`Found --date ${word}, expected a day such as 2026-11-25.`)
}
