/** Readings that may be: each view of the text, cut in each way, its columns given roles in each way. */
import { say } from '../../base/index.ts'
import { type BoardModel, compileAddressMap } from '../../board/index.ts'
import { type ColumnLook, lookAtColumn, numbersOf } from './columns.ts'
import type { ForeignNames } from '../names/foreign/meaning.ts'
import { unitOfHeading, wordBytesOf } from '../names/headings.ts'
import { headKinds } from './heads.ts'
import { type Cut, cutsOf, fieldCut } from './layouts.ts'
import { LAYOUT_WEIGHTS } from './likelihoods.ts'
import { matrixOf } from './matrix.ts'
import type { NameBook } from '../names/names.ts'
import { namedReader } from '../names/named.ts'
import { groupingOf } from '../text/quantity.ts'
import type { Column, ColumnRole, Recipe, RowKind } from '../recipe.ts'
import { assignRoles, type IsMapped, type Roles } from './roles.ts'
import { nameSense, type NameSense } from './sense.ts'
import { rowShapes, type Shape } from '../text/shapes.ts'
import type { View } from './structures.ts'

export interface Candidate {
  readonly recipe: Recipe
  readonly roles: Pick<Roles, 'confidence' | 'why' | 'swappable' | 'doubts'>
  /** Columns that are read. */
  readonly used: number
  readonly weight: number
  /** Lines that look as this candidate's rows do. */
  readonly count: number
  /** The first of them. */
  readonly firstLine: number
  readonly headingLine: number | undefined
  /** Which shape and cut it comes from: two candidates with the same are two readings of the same cells. */
  readonly origin: string
  /** Bare decimal digits are read as an address. */
  readonly bareDecimal: boolean
}

export interface Surroundings {
  readonly model: BoardModel | undefined
  readonly book: NameBook | undefined
  readonly sense: NameSense | undefined
  readonly isMapped: IsMapped
}

/** What a guess knows beside the text. Without a board no name and no address can be placed. */
export function surroundingsOf(
  model: BoardModel | undefined,
  book: NameBook | undefined,
  names?: ForeignNames,
): Surroundings {
  const sense = model === undefined ? undefined : nameSense(model, names)
  return { model, book, sense, isMapped: mappedTest(model) }
}

function mappedTest(model: BoardModel | undefined): IsMapped {
  if (model?.addressMap === undefined) return undefined
  const map = compileAddressMap(model.addressMap)
  if (!map.ok) return undefined
  const { firstAddress, endAddress } = map.value
  return (address) => address >= BigInt(firstAddress) && address < BigInt(endAddress)
}

/** All candidates of one view, the likelier first. */
export function candidatesOf(view: View, around: Surroundings): Candidate[] {
  const isName = (text: string): boolean => around.book?.isName(text) ?? false
  const shapes = view.kind === 'json' ? objectShapes(view) : rowShapes(view.lines)
  const found = shapes.flatMap((shape) => {
    const cuts = view.kind === 'json' ? [fieldCut(shape.lines) ?? []].flat() : cutsOf(shape, view.lines, isName)
    return cuts.flatMap((cut) => ofCut(view, shape, cut, around))
  })
  return [...found, ...namedCandidates(view, around)].filter(({ roles }) => roles.confidence > 0)
}

/** Objects by the names of their fields. */
function objectShapes(view: View): Shape[] {
  const shapes = new Map<string, Shape>()
  for (const line of view.lines) {
    const key = Object.keys(JSON.parse(line.text)).toSorted().join(' ')
    const shape = shapes.get(key) ?? { key, numbers: 1, count: 0, lines: [] }
    shape.count++
    if (shape.lines.length < 400) shape.lines.push(line)
    shapes.set(key, shape)
  }
  return [...shapes.values()].toSorted((a, b) => b.count - a.count).slice(0, 6)
}

function ofCut(view: View, shape: Shape, cut: Cut, around: Surroundings): Candidate[] {
  const looks = agreeOnBase(
    cut.columns.map((column) => lookAtColumn(column.at, column.texts, column.heading, around.sense)),
  )
  const matrix = matrixOf(looks, around)
  if (matrix !== undefined) return [candidate(view, shape, cut, looks, matrix.columns, matrix.roles, around)]
  const named = assignRoles(looks, around.isMapped, 'names')
  const addressed = assignRoles(looks, around.isMapped, 'addresses')
  const both =
    named.roles.join() === addressed.roles.join()
      ? [named]
      : [named, { ...addressed, confidence: addressed.confidence * AGAINST_NAMES }]
  return both.flatMap((roles) => [
    candidate(view, shape, cut, looks, columnsOf(looks, roles.roles), roles, around),
    ...underHeads(view, shape, cut, looks, roles, around),
  ])
}

/** A name beats a number: what is left of a reading by address where the same row names parts of the board. */
const AGAINST_NAMES = 0.35

function columnsOf(looks: readonly ColumnLook[], roles: readonly ColumnRole[]): Column[] {
  return looks.flatMap((look, i) => {
    const role = roles[i] ?? 'ignore'
    return role === 'ignore' ? [] : [{ role, at: look.at, base: baseOf(look, role) }]
  })
}

/** Where every number has its 0x, one without it is none: so remarks with numbers in them are not taken for rows. */
const baseOf = (look: ColumnLook, role: ColumnRole): Column['base'] =>
  look.areBytes && (role === 'expected' || role === 'actual' || role === 'difference')
    ? 'bytes'
    : (role === 'count' || role === 'tested') && !look.texts.some((text) => /0x/i.test(text))
      ? 'decimal'
      : look.base === 'hex' &&
          (look.texts.every((text) => /^\W*0[xX]/.test(text)) ||
            look.texts.every((text) => /^\W*[0-9a-f]+h\W*$/i.test(text)))
        ? 'prefixed'
        : (look.base ?? 'auto')

/** Rows with an address and one word, under lines that tell the pattern which was written. */
function underHeads(
  view: View,
  shape: Shape,
  cut: Cut,
  looks: readonly ColumnLook[],
  roles: Roles,
  around: Surroundings,
): Candidate[] {
  const has = (role: ColumnRole): boolean => roles.roles.includes(role)
  if (!has('address') || has('expected') || view.kind !== 'lines') return []
  const lone = looks.findIndex(
    (look, i) => roles.roles[i] !== 'address' && look.base === 'hex' && !look.isOther && look.role !== 'difference',
  )
  if (lone < 0) return []
  const own = new Set(shape.lines.map((line) => line.number))
  const heads = headKinds(
    view.lines.filter((line) => !own.has(line.number)),
    shape.lines[0]?.number ?? 0,
  )
  if (heads.length === 0) return []
  const columns = columnsOf(
    looks,
    roles.roles.map((role, i) =>
      i === lone ? 'actual' : role === 'actual' || role === 'difference' ? 'ignore' : role,
    ),
  )
  const told = {
    ...roles,
    confidence: 0.9,
    doubts: [],
    why: [say('The expected word is the one that stands over the rows.'), say('The other word is what was read.')],
  }
  return [candidate(view, shape, cut, looks, columns, told, around, heads)]
}

function candidate(
  view: View,
  shape: Shape,
  cut: Cut,
  looks: readonly ColumnLook[],
  columns: readonly Column[],
  roles: Pick<Roles, 'confidence' | 'why' | 'swappable' | 'doubts'>,
  { isMapped }: Surroundings,
  heads: readonly RowKind[] = [],
): Candidate {
  const { layout } = cut
  const counts = columns.filter((column) => column.role === 'count')
  const texts = looks.flatMap((look) => (counts.some((column) => column.at === look.at) ? look.texts : []))
  const grouping = groupingOf(texts)
  const address = looks.find((look) => columns.some((column) => column.role === 'address' && column.at === look.at))
  const unit = unitOf(address, looks, isMapped)
  const recipe: Recipe = {
    name: `${[...new Set(columns.map((column) => column.role))].join(', ')} (${layout.kind})`,
    layout,
    columns:
      columns.length === 0
        ? [{ role: 'ignore', at: typeof looks[0]?.at === 'string' ? 'none' : 0, base: 'auto' }]
        : [...columns],
    skipLinesWith: [],
    addressUnitBytes: unit.bytes,
    ...(view.record === undefined ? {} : { record: view.record }),
    ...(heads.length === 0 ? {} : { heads: [...heads] }),
    ...(grouping === undefined ? {} : { grouping }),
  }
  return {
    recipe,
    roles: {
      ...roles,
      confidence: roles.confidence * (cut.isUneven === true ? 0.5 : 1),
      doubts: [
        ...roles.doubts,
        ...(unit.doubt === undefined ? [] : [unit.doubt]),
        ...(cut.isUneven === true ? [say('some rows have more cells than others')] : []),
      ],
    },
    used: toldBy(columns) + heads.length,
    weight: LAYOUT_WEIGHTS[layout.kind],
    count: shape.count,
    firstLine: shape.lines[0]?.number ?? 1,
    headingLine: cut.headingLine,
    origin: `${view.kind} ${shape.key} ${JSON.stringify(layout)}`,
    bareDecimal: address !== undefined && address.base === 'decimal' && !address.baseShown,
  }
}

/** How much columns tell: labels together tell one place, in one column or in three. */
function toldBy(columns: readonly Column[]): number {
  const roles = new Set(columns.map((column) => column.role))
  const labels = [...roles].filter((role) => role === 'part' || role === 'channel' || role === 'lane').length
  return roles.size - labels + (labels > 0 ? 1.5 : 0)
}

const UNITS: readonly (readonly [RegExp, number])[] = [
  [/gi?b\b/i, 2 ** 30],
  [/mi?b\b/i, 2 ** 20],
  [/ki?b\b/i, 1024],
  [/page/i, 4096],
  [/index|idx/i, 4],
]

/** What the heading says of the unit: words where they are told and fit the memory; what else is larger than a byte is asked about. */
function unitOf(
  address: ColumnLook | undefined,
  looks: readonly ColumnLook[],
  isMapped: IsMapped,
): { bytes: number; doubt: string | undefined } {
  const heading = address?.heading ?? ''
  if (address === undefined || unitOfHeading(heading) === 'bytes') return { bytes: 1, doubt: undefined }
  const told = wordBytesOf(heading)
  const width = widthBytesOf(looks.filter((look) => look !== address))
  const words = told === 'own' ? width : told
  const bytes = words ?? UNITS.find(([pattern]) => pattern.test(heading))?.[1] ?? 1
  const inside = isMapped !== undefined && address.values.every((value) => isMapped(value * BigInt(bytes)))
  // Bytes at any place are words at any place; byte addresses of words are multiples of their width.
  const odd = address.values.filter((value) => value % BigInt(bytes) !== 0n).length
  if (words !== undefined && words === width && inside && odd > 0) return { bytes, doubt: undefined }
  return {
    bytes,
    doubt: say('the heading {heading} says that addresses count more than bytes: {bytes} bytes each are taken', {
      heading: JSON.stringify(heading),
      bytes,
    }),
  }
}

/** Bytes of the words that the rows show; undefined where they show none, or words of several widths. */
function widthBytesOf(looks: readonly ColumnLook[]): number | undefined {
  const digits = looks
    .filter((look) => look.role === 'expected' || look.role === 'actual')
    .map((look) =>
      Math.max(0, ...look.texts.map((text) => text.replace(/^\W*0x/i, '').replace(/[^0-9a-f]/gi, '').length)),
    )
  const [width] = digits
  return width === undefined || digits.some((other) => other !== width) ? undefined : width / 2
}

/** Shorter ones, such as `C3`, may be names. */
const HEX_WIDTH = 4

/** Bare digits are hexadecimal if the columns beside them are: `00001000 DEADBEEF`; unless so many digits without a letter speak against it. */
function agreeOnBase(looks: readonly ColumnLook[]): ColumnLook[] {
  const bareHex = looks.some(
    (look) =>
      look.base === 'hex' &&
      look.baseShown &&
      look.label === undefined &&
      !look.laneNames &&
      look.texts.some((text) => text.length >= HEX_WIDTH) &&
      !look.texts.some((text) => /0x/i.test(text)),
  )
  if (!bareHex) return [...looks]
  return looks.map((look) => {
    const width = look.texts[0]?.length ?? 0
    const fixedWidth = width >= 4 && look.texts.every((text) => text.length === width)
    if (look.base !== 'decimal' || look.baseShown || !(fixedWidth || look.role === 'address')) return look
    if (isSurelyDecimal(look.texts)) return { ...look, baseShown: look.role === 'address' }
    return { ...look, base: 'hex' as const, values: numbersOf(look.texts, 'hex') }
  })
}

/** Of hexadecimal digits ten in sixteen are no letter: twenty in a row by chance once in 12,000. */
const DIGITS_WITHOUT_LETTER = 20

function isSurelyDecimal(texts: readonly string[]): boolean {
  if (texts.some((text) => /^0\d/.test(text))) return false
  const width = Math.max(...texts.map((text) => text.length))
  let digits = 0
  for (let at = 1; at <= width; at++) {
    const own = texts.map((text) => text.at(-at) ?? '')
    if (new Set(own).size > 1) digits += own.filter((digit) => digit !== '').length
  }
  return digits >= DIGITS_WITHOUT_LETTER
}

const MAX_NAMED_LINES = 3000

/** Names in running text, with the number that errors are told by; or, where no word tells it, with each number in turn. */
function namedCandidates(view: View, { book }: Surroundings): Candidate[] {
  if (book === undefined || view.kind === 'json') return []
  const read = namedReader(book)
  const fields = new Map<string, string[]>()
  let statements = 0
  let first = 0
  for (const line of view.lines.slice(0, MAX_NAMED_LINES)) {
    for (const statement of read(line.text).statements) {
      statements++
      if (first === 0) first = line.number
      for (const [name, text] of statement.fields) fields.set(name, [...(fields.get(name) ?? []), text])
    }
  }
  if (statements === 0) return []
  const ambiguous = !fields.has('errors') && fields.has('number 2')
  const counts = ambiguous ? [...fields.keys()].filter((name) => name.startsWith('number')).slice(0, 3) : ['errors']
  return counts.map((at) => {
    const grouping = groupingOf([...(fields.get(at) ?? []), ...(fields.get('number 1') ?? [])])
    const columns: Column[] = [
      { role: 'part', at: 'name', base: 'auto' },
      { role: 'count', at, base: 'auto' },
    ]
    const recipe: Recipe = {
      name: say('names and what is said of them'),
      layout: { kind: 'named' },
      columns,
      skipLinesWith: [],
      addressUnitBytes: 1,
      ...(view.record === undefined ? {} : { record: view.record }),
      ...(grouping === undefined ? {} : { grouping }),
    }
    const why = [say('Lines that name a part, channel or lane of this board are read for what they say of it.')]
    return {
      recipe,
      roles: {
        confidence: ambiguous ? 0.4 : 0.8,
        why,
        swappable: false,
        doubts: ambiguous
          ? [say('several numbers stand beside each name, and no word says which of them counts errors')]
          : [],
      },
      used: 2.4,
      weight: LAYOUT_WEIGHTS.named,
      count: statements,
      firstLine: first,
      headingLine: undefined,
      origin: `${view.kind} named`,
      bareDecimal: false,
    }
  })
}
