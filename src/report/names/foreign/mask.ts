/** A bit mask over packages: `fail mask: 0x14` blames the packages that its bits stand for; which those are is told by names. */
import { say } from '../../../base/index.ts'
import type { Recipe } from '../../recipe.ts'
import type { SampleLine } from '../../text/shapes.ts'

/** What bit i of a mask is called among foreign names. */
export const nameOfBit = (bit: number): string => `bit ${bit}`

const MASK =
  /^(.*?\b(?:(?:fail|bad|error|err|faulty|chips?|packages?|banks?|modules?|devices?|memory)\w*[\s_-]+(?:bit)?(?:mask|map)|(?:bad|failing|failed|faulty)\s+(?:chips?|packages?|devices?|modules?))\s*[:=]?\s*)(0x[0-9a-f]{1,8})\s*$/i
const MAX_LINES = 500
const FEWEST_SHARE = 0.5

export interface Mask {
  /** What stands before it in every such line. */
  readonly before: string
  readonly values: readonly { readonly value: number; readonly line: number }[]
}

/** The mask of a report, if lines end with one behind the same words, its bits are no more than there are packages, and little else has numbers. */
export function maskOf(lines: readonly SampleLine[], packages: number): Mask | undefined {
  const found = new Map<string, { value: number; line: number }[]>()
  let numbered = 0
  for (const { text, number } of lines.slice(0, MAX_LINES)) {
    const match = MASK.exec(text.trim())
    if (/\d/.test(text)) numbered++
    const before = match?.[1]?.replace(/^.*\d\S*\s+/, '') ?? ''
    if (match === null || before.trim() === '' || /[{}]/.test(before)) continue
    found.set(before, [...(found.get(before) ?? []), { value: Number.parseInt(match[2] ?? '', 16), line: number }])
  }
  const [most] = [...found].toSorted(([, a], [, b]) => b.length - a.length)
  if (most === undefined || most[1].length < FEWEST_SHARE * numbered) return undefined
  return most[1].every(({ value }) => value < 2 ** packages) ? { before: most[0], values: most[1] } : undefined
}

/** How such a report is read once it is told which package each bit is of. */
export const recipeOfMask = ({ before }: Mask): Recipe => ({
  name: say('bits of a mask over packages'),
  layout: { kind: 'pattern', pattern: `${before}{mask}` },
  columns: [{ role: 'packages', at: 'mask', base: 'prefixed' }],
  skipLinesWith: [],
  addressUnitBytes: 1,
})
