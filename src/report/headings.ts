/** What people call the columns of a report: headings, keys and the words before a number, to roles. */
import type { ColumnRole } from './recipe.ts'

/** Words of the trade for each role, the telling ones first; a heading of several words is read word by word. */
const WORDS: readonly (readonly [ColumnRole, string])[] = [
  ['difference', 'xor diff difference mask errormask errmask syndrome delta flipped failbits errorbits errbits'],
  ['address', 'address addr adr addresses offset location loc physical paddr physaddr pa at'],
  ['expected', 'expected expect exp wrote written write wr pattern pat good should golden want wanted reference'],
  ['actual', 'actual act read got found bad was received observed rd readback is'],
  ['count', 'count cnt errors errs errorcount hits fails failures failed total times occurrences'],
  ['lane', 'lane byte bytelane lanes edc'],
  ['bit', 'bit dq pin bitno bitnumber'],
  ['channel', 'channel ch chan subchannel'],
  ['part', 'part chip ref refdes designator package device component ic die memory mem'],
]

const ROLE_OF_WORD = new Map(WORDS.flatMap(([role, words]) => words.split(' ').map((word) => [word, role] as const)))

/** The role that a heading speaks of, or undefined. `Error Address (hex)` is an address, `XOR mask` a difference. */
export function roleOfHeading(heading: string): ColumnRole | undefined {
  const words = wordsOf(heading)
  const whole = ROLE_OF_WORD.get(words.join(''))
  if (whole !== undefined) return whole
  const roles = words.flatMap((word) => ROLE_OF_WORD.get(word) ?? [])
  return WORDS.find(([role]) => roles.includes(role))?.[0]
}

/** `readBack_value` is `read back value`. */
function wordsOf(heading: string): string[] {
  return heading
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .toLowerCase()
    .split(/[^\p{L}]+/u)
    .filter((word) => word !== '')
}
