/** `liftmap record CASE --for owner|technician|intake|quote|invoice`: a page of a visit as HTML or PDF, an invoice as CSV too. */
import { bad, good, type Result, say } from '../../base/index.ts'
import {
  type Audience,
  type Case,
  invoiceCsv,
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
  readonly decimalComma?: boolean | undefined
}

/**
 * Prints the page as HTML, or writes HTML or PDF by the ending of `out`, an invoice also as CSV. Refuses another ending, an
 * audience that it does not know, a day that is none, and quote or invoice where the case has none. Returns the exit code.
 */
export async function runRecord(io: Io, file: string, options: RecordOptions): Promise<number> {
  const audience = audienceFrom(options.for)
  const today = dayFrom(options.date)
  const { out } = options
  const asTable = audience === 'invoice' && out !== undefined && /\.csv$/i.test(out)
  if (out !== undefined && !asTable && !/\.(?:html?|pdf)$/i.test(out))
    throw new WrongUsage(
      say('Found --out {out}, expected a name that ends in .html or .pdf, of an invoice also .csv.', { out }),
    )
  return await whenGood(io, havingPage(await assessCaseFile(io, file), audience), async (opened) => {
    const write = (content: string | Uint8Array): number => {
      const written = io.write(out ?? '', content, { force: options.force === true, inputs: [file] })
      if (!written.ok) return printFaults(io, written.faults)
      io.err(say('Wrote {page} to {out}.\n', { page: pageNames[audience], out: out ?? '' }))
      return EXIT.fine
    }
    if (asTable) return write(tableOf(opened.caseFile, options.decimalComma === true))
    const record = recordOfCase(opened, audience, today)
    if (out === undefined) {
      io.out(recordHtml(record))
      return EXIT.fine
    }
    return write(/\.pdf$/i.test(out) ? await pdfBytes(recordPdfDefinition(record)) : recordHtml(record))
  })
}

/** A quote or an invoice is printed as it was given: where none was, there is nothing to print. */
function havingPage(opened: Result<AssessedCase>, audience: Audience): Result<AssessedCase> {
  if (!opened.ok || (audience !== 'quote' && audience !== 'invoice')) return opened
  if (opened.value.caseFile[audience] !== undefined) return good(opened.value)
  return bad({
    path: `$.${audience}`,
    found: say('nothing'),
    expected: audience === 'quote' ? say('a quote') : say('an invoice'),
    todo: say('Write it at the hand-back station first.'),
  })
}

function tableOf({ invoice, card, handBack }: Case, decimalComma: boolean): string {
  return invoice === undefined ? '' : invoiceCsv(invoice, card, handBack.currency, { decimalComma })
}

const recordOfCase = (opened: AssessedCase, audience: Audience, today: string): RecordDocument =>
  recordOf({ ...opened, proof: proofOf(opened), audience, today })

const pageNames: Readonly<Record<Audience, string>> = {
  owner: say('the page for the owner'),
  technician: say('the page for the technician'),
  intake: say('the slip of the intake'),
  quote: say('the quote'),
  invoice: say('the invoice'),
}

const AUDIENCES: readonly Audience[] = ['owner', 'technician', 'intake', 'quote', 'invoice']

function audienceFrom(word: string): Audience {
  const known = AUDIENCES.find((audience) => audience === word)
  if (known !== undefined) return known
  throw new WrongUsage(say('Found --for {word}, expected owner, technician, intake, quote or invoice.', { word }))
}

/** The clock is read only where no day is handed in. */
function dayFrom(word: string | undefined): string {
  if (word === undefined) return new Date().toISOString().slice(0, 10)
  const day = new Date(`${word}T00:00:00Z`)
  if (/^\d{4}-\d\d-\d\d$/.test(word) && !Number.isNaN(day.getTime()) && day.toISOString().startsWith(word)) return word
  throw new WrongUsage(say('Found --date {word}, expected a day such as 2026-11-25.', { word }))
}
