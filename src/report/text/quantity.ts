/** How many errors a cell says: with or without thousands marks, as `12/1048576`, or as a word such as `ok` or `FAIL`. */

/** Words that say that a test found nothing, in plain letters. */
const PASS =
  /^(?:ok|okay|pass|passed|passes|passing|clean|good|fine|healthy|none|no|zero|nil|clear|intact|success|succeeded|✓|✔|bestanden|fehlerfrei|gut|io|réussi|bon|correcto|bien|superado|superato|buono|aprovado|исправен|норма|通过|正常|合格)$/u
/** Words that say that it found something. */
const FAIL =
  /^(?:fail|fails|failed|failing|failure|bad|ng|nok|ko|error|errors|err|faulty|broken|defect|defective|mismatch|✗|✘|fehler|fehlerhaft|defekt|durchgefallen|nio|échec|mauvais|fallo|falla|malo|guasto|fallito|falha|неисправен|ошибка|失败|错误|不合格)$/u
/** Words that say that nothing is known. */
const UNTESTED =
  /^(?:skipped|skip|untested|na|nottested|notrun|unknown|pending|aborted|disabled|absent|empty|ausgelassen|ungeprüft|ignoré|omitido)$/u

/** `DQ3`, `bit 3`: the data bit that a column is of. */
export function bitOfHeading(heading: string): number | undefined {
  const bit = /^(?:dq|bit)[\s_#[]*(\d{1,2})\]?$/i.exec(heading.trim())?.[1]
  return bit === undefined || Number(bit) > 63 ? undefined : Number(bit)
}

/** A row or column that sums up others. */
const TOTAL =
  /^(?:total|totals|sum|sums|all|overall|grandtotal|gesamt|summe|alle|totale|totaux|somme|suma|totales|todos|всего|итого|合计|总计|小计)$/u

/** A text that names a sum of others (`Total:`), in any of several languages; only its letters count. */
export const isTotal = (text: string): boolean => TOTAL.test(text.toLowerCase().replace(/[^\p{L}]+/gu, ''))

export type Verdict = 'pass' | 'fail' | 'untested'

/** @param text a word, or a few words run together; case and marks do not count */
export function verdictOf(text: string): Verdict | undefined {
  const plain = text.toLowerCase().replace(/[^\p{L}\p{N}✓✔✗✘]+/gu, '')
  if (PASS.test(plain)) return 'pass'
  if (FAIL.test(plain)) return 'fail'
  return UNTESTED.test(plain) ? 'untested' : undefined
}

/** The share that a cell such as `0.01 %` says, from 0 to 1. */
export function readShare(text: string): number | undefined {
  const digits = /^(\d{1,3})(?:[.,](\d{1,9}))?\s?%$/.exec(bareOf(text))
  if (digits === null) return undefined
  const share = Number(`${digits[1]}.${digits[2] ?? '0'}`) / 100
  return share <= 1 ? share : undefined
}

export type Grouping = ',' | '.' | "'" | ' '

export interface Quantity {
  readonly errors: number
  /** Of so many, where the cell says it. */
  readonly tested: number | undefined
}

const OPENING = '([{<"\''
const CLOSING = ')]}>"\':;,.'

/** Reads a count; `grouping` is the mark that the file puts between thousands. */
export function readQuantity(text: string, grouping: Grouping | undefined): Quantity | undefined {
  const bare = bareOf(text)
  const parts = /^(.+?)\s*(?:\/|\bof\b)\s*(.+)$/.exec(bare)
  if (parts === null) {
    const errors = wholeNumber(bare, grouping)
    return errors === undefined ? undefined : { errors, tested: undefined }
  }
  const errors = wholeNumber(parts[1] ?? '', grouping)
  const tested = wholeNumber(parts[2] ?? '', grouping)
  return errors === undefined || tested === undefined || errors > tested ? undefined : { errors, tested }
}

function bareOf(text: string): string {
  let from = 0
  let to = text.length
  while (from < to && OPENING.includes(text.charAt(from))) from++
  while (to > from && CLOSING.includes(text.charAt(to - 1))) to--
  return text.slice(from, to).trim()
}

function wholeNumber(text: string, grouping: Grouping | undefined): number | undefined {
  const bare = bareOf(text)
  const plain = grouping !== undefined && isGrouped(bare, grouping) ? bare.replaceAll(grouping, '') : bare
  if (/^0x[0-9a-f]{1,6}$/i.test(plain)) return Number.parseInt(plain, 16)
  const scaled = /^(\d+)([kKM])$/.exec(plain)
  if (scaled !== null) return Number(scaled[1]) * (scaled[2] === 'M' ? 1_000_000 : 1000)
  if (!/^\d+$/.test(plain)) return undefined
  const value = Number(plain)
  return value <= Number.MAX_SAFE_INTEGER ? value : undefined
}

const ESCAPED: Readonly<Record<Grouping, string>> = { ',': ',', '.': String.raw`\.`, "'": "['’]", ' ': ' ' }

const isGrouped = (text: string, grouping: Grouping): boolean =>
  new RegExp(`^\\d{1,3}(?:${ESCAPED[grouping]}\\d{3})+$`).test(text)

/** The mark between thousands that a whole column uses: every mark stands before three digits, and none does otherwise. */
export function groupingOf(texts: readonly string[]): Grouping | undefined {
  for (const grouping of [',', '.', "'", ' '] as const) {
    const marked = texts.map(bareOf).filter((text) => text.includes(grouping))
    if (
      marked.length > 0 &&
      marked.every((text) =>
        text.split(/\s*(?:\/|\bof\b)\s*/).every((part) => !part.includes(grouping) || isGrouped(part, grouping)),
      )
    )
      return grouping
  }
  return undefined
}
