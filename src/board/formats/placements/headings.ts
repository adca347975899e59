/** What a column of a table of places holds, by its heading. Words as the trade uses them: common practice, no source. */
import { mmPer } from '../units.ts'

export type Role = 'ref' | 'x' | 'y' | 'rotation' | 'side' | 'mirror' | 'value' | 'package' | 'height' | 'other'

export interface Heading {
  readonly role: Role
  /** Of several columns for one thing the least counts: a middle before a reference point before a pad. */
  readonly rank: number
  readonly mmPerUnit: number | undefined
}

const WORDS: readonly (readonly [Role, number, RegExp])[] = [
  ['ref', 0, /^(ref|refdes|refdesignator|reference|references|referencedesignator|designator|refid|partref)$/],
  ['ref', 1, /^(component|componentname|part|partname|name|id|location)$/],
  ['x', 0, /^(mid|center|centre|centroid|body)x$|^x(mid|center|centre|centroid)$/],
  ['y', 0, /^(mid|center|centre|centroid|body)y$|^y(mid|center|centre|centroid)$/],
  ['x', 1, /^(pos|loc|location|coord|position|placement)?x(pos|position|loc|location|coord|coordinate)?$/],
  ['y', 1, /^(pos|loc|location|coord|position|placement)?y(pos|position|loc|location|coord|coordinate)?$/],
  ['x', 2, /^(ref|origin)x$/],
  ['y', 2, /^(ref|origin)y$/],
  ['other', 3, /^pad[xy]$/],
  ['rotation', 0, /^(rot|rotation|rotate|angle|orientation|orient|theta|deg|degrees?|rotdeg|rotationdeg)$/],
  [
    'side',
    0,
    /^(side|layer|tb|topbottom|topbot|tops?ide|mountside|mountingside|boardside|pcbside|face|placementlayer)$/,
  ],
  ['mirror', 0, /^(mirror|mirrored|flip|flipped)$/],
  ['package', 0, /^(package|packagename|footprint|footprintname|pattern|case|casename|pcbfootprint|symbol|geometry)$/],
  ['package', 1, /^(description|desc|shape)$/],
  ['value', 0, /^(val|value|partvalue)$/],
  ['value', 1, /^(comment|partnumber|partno|part|device|type|mpn|material)$/],
  ['height', 0, /^(height|componentheight|bodyheight)$/],
]

const LONGEST_HEADING = 60
const UNIT_AT_END = /[\s([{_.,/-]*\b(mm|mils?|thou|inch(?:es)?|in|um|µm|cm)\b[)\]}.\s]*$/i

/** The role that a heading's words give a column; undefined for words that are none of the trade. */
export function headingOf(cell: string): Heading | undefined {
  if (cell.length > LONGEST_HEADING) return undefined
  const unit = UNIT_AT_END.exec(cell)
  const bare = unit === null ? cell : cell.slice(0, unit.index)
  const word = bare.toLowerCase().replaceAll(/[^a-z]/g, '')
  const found = WORDS.find(([, , pattern]) => pattern.test(word))
  if (found === undefined) return undefined
  return { role: found[0], rank: found[1], mmPerUnit: unit === null ? undefined : mmPer(unit[1] ?? '') }
}

/** Headings of two words as they stand in tables of blank columns, where one blank may part two columns as well. */
const SECOND_WORDS = /^(x|y|designator|des|name|number|layer|side|value|mm|mils?|inch)$/i
const FIRST_WORDS =
  /^(mid|center|centre|centroid|ref|pad|pos|loc|location|part|reference|component|package|footprint)$/i

/** Puts words together that are one heading: `Mid X` is one, `Designator Footprint` two. */
export function headingWords(words: readonly string[]): string[] {
  const headings: string[] = []
  for (let i = 0; i < words.length; i++) {
    const [word = '', next = ''] = [words[i], words[i + 1]]
    const isPair = FIRST_WORDS.test(word) && SECOND_WORDS.test(next) && headingOf(`${word} ${next}`) !== undefined
    headings.push(isPair ? `${word} ${next}` : word)
    if (isPair) i++
  }
  return headings
}

const TOP = /^(t|top|f|front|toplayer|topside|f\.?cu|primary|component(side)?|comp|upper|1)$/
const BOTTOM = /^(b|bot|bottom|back|bottomlayer|botlayer|bottomside|b\.?cu|secondary|solder(side)?|lower|2)$/

/** The side that a cell of a side column names. */
export function sideNamed(cell: string): 'top' | 'bottom' | undefined {
  const word = cell.toLowerCase().replaceAll(/[\s_-]/g, '')
  if (TOP.test(word)) return 'top'
  return BOTTOM.test(word) ? 'bottom' : undefined
}

/** Whether a cell of a mirror column says so. */
export function mirrorNamed(cell: string): 'top' | 'bottom' | undefined {
  if (/^(y|yes|true|1|m)$/i.test(cell)) return 'bottom'
  return /^(n|no|false|0|-)?$/i.test(cell) ? 'top' : undefined
}
