/** A record as one HTML page that needs nothing else: no script, no other file, printable on A4. */
import { escapeMarkup, say } from '../../base/index.ts'
import {
  type RecordBlock,
  type RecordColumn,
  type RecordDocument,
  type RecordFact,
  type RecordPicture,
  WIDE,
} from './document.ts'
import { recordStyle } from './html-style.ts'
import { held } from './words.ts'

/** A page in two, for where no style may stand inline: without its style, and the style. */
export function apartFromStyle(html: string): { readonly page: string; readonly style: string } {
  const from = html.indexOf(STYLE_BEGINS)
  const to = html.indexOf(STYLE_ENDS, from)
  if (from < 0 || to < 0) return { page: html, style: '' }
  return {
    page: html.slice(0, from) + html.slice(to + STYLE_ENDS.length),
    style: html.slice(from + STYLE_BEGINS.length, to),
  }
}

const STYLE_BEGINS = '<style>'
const STYLE_ENDS = '</style>'

/** @returns the page; all text is escaped, and its policy refuses scripts and whatever is not in the page itself */
export function recordHtml(record: RecordDocument): string {
  const policy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:"
  return `<!doctype html>
<html lang="${record.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<title>${escaped(`${record.title} – ${record.foot}`)}</title>
${STYLE_BEGINS}${recordStyle(record.foot)}${STYLE_ENDS}
</head>
<body>
<header>
${record.code === undefined ? '' : codeHtml(record.code)}
<h1>${escaped(record.title)}</h1>
<p class="under">${escaped(record.under)}</p>
${record.facts.length === 0 ? '' : `<dl>${record.facts.map((fact) => `<div>${factHtml(fact)}</div>`).join('')}</dl>`}
</header>
<main>
${record.sections
  .map(
    ({ title, blocks }, i) => `<section aria-labelledby="s${i}">
<h2 id="s${i}">${escaped(title)}</h2>
${blocks.map(blockHtml).join('\n')}
</section>`,
  )
  .join('\n')}
</main>
</body>
</html>
`
}

/** Text for element content and for quoted attributes. */
export const escaped = (text: string): string => escapeMarkup(held(text))

function blockHtml(block: RecordBlock): string {
  switch (block.kind) {
    case 'paragraph':
      return `<p>${escaped(block.text)}</p>`
    case 'quote':
      return `<blockquote>${escaped(block.text)}<footer>${escaped(block.by)}</footer></blockquote>`
    case 'list':
      return `<ul>${block.items.map((item) => `<li>${escaped(item)}</li>`).join('')}</ul>`
    case 'facts':
      return `<dl aria-label="${escaped(block.caption)}">${block.facts.map(factHtml).join('')}</dl>`
    case 'cautions':
      return `<div class="cautions"><strong>${escaped(block.at ?? say('Caution'))}</strong><ul>${block.sentences.map((each) => `<li>${escaped(each)}</li>`).join('')}</ul></div>`
    case 'pictures':
      return `<div class="pictures">${block.pictures.map(pictureHtml).join('')}</div>`
    case 'table':
      return tableHtml(block)
  }
}

const factHtml = ({ name, value }: RecordFact): string => `<dt>${escaped(name)}</dt><dd>${escaped(value)}</dd>`

function tableHtml({ caption, columns, rows, sum }: Extract<RecordBlock, { kind: 'table' }>): string {
  const head = columns.map((column) => `<th scope="col"${classOf(column)}>${escaped(column.name)}</th>`).join('')
  const foot = sum === undefined ? '' : `<tfoot>${rowHtml(sum, columns)}</tfoot>`
  return `<table><caption>${escaped(caption)}</caption><thead><tr>${head}</tr></thead><tbody>${rows.map((row) => rowHtml(row, columns)).join('')}</tbody>${foot}</table>`
}

function rowHtml(row: readonly string[], columns: readonly RecordColumn[]): string {
  const cells = columns.map((column, i) => {
    const text = escaped(row[i] ?? '')
    return i === 0 ? `<th scope="row"${classOf(column)}>${text}</th>` : `<td${classOf(column)}>${text}</td>`
  })
  return `<tr>${cells.join('')}</tr>`
}

const classOf = ({ number = false }: RecordColumn): string => (number ? ' class="number"' : '')

/** A drawing goes in as an image, so that nothing in it can reach the page around it. */
function pictureHtml({ source, alt, caption, widthPx, heightPx }: RecordPicture): string {
  const address = 'svg' in source ? svgAddress(source.svg) : photoAddress(source.dataUrl)
  if (address === undefined) return ''
  const size = `width="${Math.round(widthPx * 4)}" height="${Math.round(heightPx * 4)}"`
  return `<figure${figureClass(source, widthPx / heightPx)}><img src="${escaped(address)}" ${size} alt="${escaped(alt)}"><figcaption>${escaped(caption)}</figcaption></figure>`
}

function figureClass(source: RecordPicture['source'], ratio: number): string {
  if (!('svg' in source)) return ' class="photo"'
  return ratio > WIDE ? ' class="wide"' : ''
}

const codeHtml = ({ words, svg }: NonNullable<RecordDocument['code']>): string =>
  `<figure class="code"><img src="${escaped(svgAddress(svg))}" alt="The code ${escaped(words)} for a camera"><figcaption>${escaped(words)}</figcaption></figure>`

const svgAddress = (svg: string): string => `data:image/svg+xml,${encodeURIComponent(svg)}`

/** The address again where it is nothing but an image written in base 64; undefined else. */
export const photoAddress = (dataUrl: string): string | undefined =>
  /^data:image\/(?:png|jpeg|webp);base64,[A-Za-z0-9+/]+=*$/.test(dataUrl) ? dataUrl : undefined
