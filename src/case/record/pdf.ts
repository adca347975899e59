/** A record as the document definition that pdfmake sets into pages; the same record gives the same definition. */
import type { Content, ContentTable, Node, NodeQueries, TableCell, TDocumentDefinitions } from 'pdfmake/interfaces'
import { say } from '../../base/index.ts'
import {
  type RecordBlock,
  type RecordColumn,
  type RecordDocument,
  type RecordFact,
  type RecordPicture,
  type RecordSection,
  WIDE,
} from './document.ts'
import { photoAddress } from './html.ts'
import { held } from './words.ts'

const INK = '#2b2a27'
const MUTED = '#5c564c'
const HAIRLINE = '#d8cfbd'
/** A4 in points, and the margins. */
const PAGE_WIDTH = 595.28
const SIDE = 45
const WIDTH = PAGE_WIDTH - 2 * SIDE
const GAP = 12

/** @returns a definition without functions of time or chance; the font family is `Roboto`, which the edge hands in */
export function recordPdfDefinition(record: RecordDocument): TDocumentDefinitions {
  const created = new Date(`${record.day}T00:00:00Z`)
  return {
    pageSize: 'A4',
    pageMargins: [SIDE, 45, SIDE, 56],
    language: record.language,
    info: { title: record.title, subject: record.foot, creator: 'Liftmap', creationDate: created, modDate: created },
    defaultStyle: { font: 'Roboto', fontSize: 9.5, lineHeight: 1.2, color: INK },
    content: [
      ...(record.code === undefined ? titleContent(record) : [besideCode(titleContent(record), record.code)]),
      rule(1.2, INK),
      ...record.sections.flatMap(sectionContent),
    ],
    footer: (page, pages) => ({
      margin: [SIDE, 18, SIDE, 0],
      fontSize: 9,
      color: MUTED,
      columns: [
        { text: record.foot, width: '*' },
        { text: say('{page} of {pages}', { page, pages }), width: 60, alignment: 'right' },
      ],
    }),
    pageBreakBefore: leftAlone,
  }
}

const titleContent = ({ title, under, facts }: RecordDocument): Content[] => [
  { text: title, fontSize: 19, bold: true },
  { text: under, color: MUTED, margin: [0, 1, 0, 8] },
  ...(facts.length === 0 ? [] : [titleFacts(facts)]),
]

/** Of the code's picture, its white border included: 32 mm, about a millimetre a module. */
const CODE_WIDTH = 92

const besideCode = (title: Content[], { words, svg }: NonNullable<RecordDocument['code']>): Content => ({
  columns: [
    { width: '*', stack: title },
    {
      width: CODE_WIDTH,
      stack: [
        { svg, width: CODE_WIDTH, height: CODE_WIDTH },
        { text: words, bold: true, fontSize: 12, alignment: 'center', noWrap: true, margin: [0, 1, 0, 0] },
      ],
    },
  ],
  columnGap: GAP,
})

/** A short first block stays with its heading; before a long one a heading that would stand alone goes to the next page. */
function sectionContent({ title, blocks }: RecordSection): Content[] {
  const heading: Content[] = [
    { text: title, fontSize: 12.5, bold: true, margin: [0, 12, 0, 1], headlineLevel: 1 },
    { ...rule(0.5, '#b8ad98'), headlineLevel: 1 },
  ]
  const [first, ...others] = blocks
  const rest = others.flatMap(blockContent)
  if (first === undefined || !isShort(first))
    return [...heading, ...(first === undefined ? [] : blockContent(first)), ...rest]
  return [{ stack: [...heading, ...blockContent(first)], unbreakable: true }, ...rest]
}

const SHORT_TEXT = 900
const SHORT_FACTS = 14

function isShort(block: RecordBlock): boolean {
  switch (block.kind) {
    case 'paragraph':
    case 'quote':
      return block.text.length <= SHORT_TEXT
    case 'facts':
      return block.facts.length <= SHORT_FACTS && block.facts.every(({ value }) => value.length <= SHORT_TEXT / 4)
    case 'table':
      return isKeptTogether(block.rows)
    default:
      return false
  }
}

/** A heading with no text or drawing after it on its page goes to the next one. */
function leftAlone(node: Node, queries: NodeQueries): boolean {
  if (node.headlineLevel === undefined) return false
  const page = node.startPosition.pageNumber
  return !queries
    .getFollowingNodesOnPage()
    .some(
      (each) =>
        each.headlineLevel === undefined &&
        each.startPosition.pageNumber === page &&
        (typeof each.text === 'string' || each.svg !== undefined),
    )
}

const rule = (lineWidth: number, lineColor: string) => ({
  canvas: [{ type: 'line' as const, x1: 0, y1: 0, x2: WIDTH, y2: 0, lineWidth, lineColor }],
  margin: [0, 2, 0, 4] as [number, number, number, number],
})

const titleFacts = (facts: readonly RecordFact[]): Content => ({
  columns: facts.map(({ name, value }) => ({
    width: '*',
    stack: [
      { text: name, fontSize: 9, color: MUTED },
      { text: value, bold: true },
    ],
  })),
  columnGap: GAP,
  margin: [0, 0, 0, 4],
})

function blockContent(block: RecordBlock): Content[] {
  switch (block.kind) {
    case 'paragraph':
      return [{ text: held(block.text), margin: [0, 2, 0, 3] }]
    case 'quote':
      return [quoteContent(block)]
    case 'list':
      return [{ ul: block.items.map((text) => ({ text: held(text), margin: [0, 1, 0, 1] })), margin: [0, 2, 0, 4] }]
    case 'facts':
      return [factsContent(block.facts)]
    case 'cautions':
      return [cautionContent(block.sentences, block.at)]
    case 'pictures':
      return pictureRows(block.pictures)
    case 'table':
      return tableContent(block)
  }
}

const quoteContent = ({ by, text }: { readonly by: string; readonly text: string }): Content => ({
  table: { widths: ['*'], body: [[{ stack: [{ text: held(text) }, { text: by, fontSize: 9, color: MUTED }] }]] },
  layout: {
    hLineWidth: () => 0,
    vLineWidth: (i) => (i === 0 ? 2 : 0),
    vLineColor: () => '#b8ad98',
    paddingLeft: () => 9,
    paddingTop: () => 1,
    paddingBottom: () => 1,
  },
  margin: [0, 4, 0, 5],
})

const factsContent = (facts: readonly RecordFact[]): Content => ({
  table: {
    widths: [150, '*'],
    body: facts.map(({ name, value }) => [{ text: name, color: MUTED }, { text: held(value) }]),
    dontBreakRows: true,
  },
  layout: { defaultBorder: false, paddingLeft: () => 0, paddingTop: () => 1, paddingBottom: () => 0.5 },
  margin: [0, 2, 0, 4],
})

const cautionContent = (sentences: readonly string[], at = say('Caution')): Content => ({
  table: {
    widths: ['*'],
    body: [
      [
        {
          stack: [
            { text: at, bold: true },
            { ul: sentences.map((text) => ({ text: held(text), margin: [0, 1, 0, 1] })) },
          ],
        },
      ],
    ],
  },
  layout: {
    hLineWidth: () => 0.7,
    vLineWidth: (i) => (i === 0 ? 4 : 0.7),
    hLineColor: () => INK,
    vLineColor: () => INK,
    paddingLeft: () => 9,
    paddingTop: () => 5,
    paddingBottom: () => 5,
  },
  margin: [0, 6, 0, 6],
})

function tableContent({ caption, columns, rows, sum }: Extract<RecordBlock, { kind: 'table' }>): Content[] {
  const cell = (text: string, column: RecordColumn, bold: boolean, color = INK): TableCell => ({
    text: held(text),
    bold,
    color,
    alignment: column.number === true ? 'right' : 'left',
  })
  const rowOf = (row: readonly string[], bold: boolean): TableCell[] =>
    columns.map((column, i) => cell(row[i] ?? '', column, bold || i === 0))
  const head: TableCell = { text: held(caption), bold: true, colSpan: columns.length, fontSize: 9.5 }
  const body = [
    [head, ...columns.slice(1).map((): TableCell => ({ text: '' }))],
    columns.map((column) => cell(column.name, column, false, MUTED)),
    ...rows.map((row) => rowOf(row, false)),
    ...(sum === undefined ? [] : [rowOf(sum, true)]),
  ]
  const table: ContentTable = {
    table: { headerRows: 2, keepWithHeaderRows: 1, dontBreakRows: true, widths: widthsOf(columns, rows), body },
    layout: {
      hLineWidth: (i) => (i < 2 ? 0 : 0.5),
      hLineColor: (i) => (i === 2 ? '#8a8172' : HAIRLINE),
      vLineWidth: () => 0,
      paddingLeft: (i) => (i === 0 ? 0 : CELL_GAP / 2),
      paddingRight: (i) => (i === columns.length - 1 ? 0 : CELL_GAP / 2),
      paddingTop: () => 2,
      paddingBottom: () => 1.5,
    },
    fontSize: 9,
    margin: [0, 4, 0, 6],
    unbreakable: isKeptTogether(rows),
  }
  return [table]
}

/** Tables so small never go over two pages. */
const isKeptTogether = (rows: readonly (readonly string[])[]): boolean =>
  rows.length <= KEPT_ROWS && rows.flat().join('').length <= KEPT_LETTERS

const KEPT_ROWS = 6
const KEPT_LETTERS = 2500

/** About what a letter takes at the size of a table, in points: bold and capitals weigh more in a short word. */
const lineWidth = (letters: number): number => (letters <= 16 ? 5.6 * letters : 90 + 4.6 * (letters - 16))
const CELL_GAP = 10

/** In points: each column gets what its longest line needs, as far as an equal share of what is left allows; the rest is spread. */
function widthsOf(columns: readonly RecordColumn[], rows: readonly (readonly string[])[]): number[] {
  const wanted = columns.map(({ name }, i) =>
    lineWidth(
      Math.max(4, name.length, ...rows.flatMap((row) => (row[i] ?? '').split('\n')).map((line) => line.length)),
    ),
  )
  const widths = wanted.map(() => 0)
  let left = WIDTH - CELL_GAP * (columns.length - 1)
  const byNeed = wanted.map((want, i) => ({ want, i })).toSorted((a, b) => a.want - b.want)
  for (const [k, { want, i }] of byNeed.entries()) {
    const width = Math.min(want, left / (byNeed.length - k))
    widths[i] = width
    left -= width
  }
  return widths.map((width) => width + left / columns.length)
}

/** Of the paper's width, for a drawing by itself that is not wide. */
const ALONE = 0.66

/** Drawings two to a row, photos three. */
function pictureRows(pictures: readonly RecordPicture[]): Content[] {
  const perRow = pictures.some(({ source }) => 'dataUrl' in source) ? 3 : Math.min(2, Math.max(1, pictures.length))
  const isWide = pictures.some(({ widthPx, heightPx }) => widthPx / heightPx > WIDE)
  const alone = isWide ? WIDTH : ALONE * WIDTH
  const width = perRow === 1 ? alone : (WIDTH - GAP * (perRow - 1)) / perRow
  const rows: Content[] = []
  for (let i = 0; i < pictures.length; i += perRow) {
    const columns = pictures.slice(i, i + perRow).map((picture) => ({ width, stack: pictureContent(picture, width) }))
    rows.push({ columns, columnGap: GAP, margin: [0, 5, 0, 5], unbreakable: true })
  }
  return rows
}

function pictureContent({ source, caption, widthPx, heightPx }: RecordPicture, width: number): Content[] {
  const under: Content = { text: held(caption), fontSize: 9, color: MUTED, margin: [0, 2, 0, 0] }
  if ('svg' in source) return [{ svg: withoutHalo(source.svg), width, height: (width * heightPx) / widthPx }, under]
  const address = photoAddress(source.dataUrl)
  // PDF knows no WebP.
  if (address === undefined || address.startsWith('data:image/webp')) return [under]
  return [{ image: address, width }, under]
}

/** Its renderer paints the stroke over the fill whatever the order says, and a halo would cover the letters. */
const withoutHalo = (svg: string): string =>
  svg.replaceAll(/ paint-order="stroke" stroke="[^"]*" stroke-width="[^"]*"/g, '')
