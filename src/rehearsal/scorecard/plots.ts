/** Plots of a scorecard as inline SVG: bars with their ranges, and curves of what was said against what was so. */
import { escapeMarkup, okabeIto } from '../../base/index.ts'
import type { Calibration } from './statistics.ts'

const INK = '#3b372f'
const FAINT = '#b9b2a3'
/** Okabe and Ito's palette; each series also has its own mark and name. */
const { blue, vermillion, green, purple, orange, sky } = okabeIto
export const SERIES_COLOURS = [blue, vermillion, green, purple, orange, sky] as const

const text = (x: number, y: number, words: string, anchor: 'start' | 'middle' | 'end' = 'start'): string =>
  `<text x="${x.toFixed(1)}" y="${y.toFixed(1)}" text-anchor="${anchor}">${escapeMarkup(words)}</text>`

const line = (x1: number, y1: number, x2: number, y2: number, colour: string = INK): string =>
  `<line x1="${x1.toFixed(1)}" y1="${y1.toFixed(1)}" x2="${x2.toFixed(1)}" y2="${y2.toFixed(1)}" stroke="${colour}"/>`

const svg = (width: number, height: number, title: string, body: string): string =>
  `<svg viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img" aria-label="${escapeMarkup(title)}" font-size="12" fill="${INK}">${body}</svg>`

export interface Bar {
  readonly name: string
  readonly value: number
  readonly low?: number
  readonly high?: number
  /** Index of its series, for colour. */
  readonly series: number
}

const BAR_HEIGHT = 22
const NAME_WIDTH = 190
const PLOT_WIDTH = 420

/** Horizontal bars from zero, each with its value, and its range as a whisker. */
export function barPlot(title: string, bars: readonly Bar[]): string {
  const most = Math.max(1, ...bars.map(({ value, high }) => high ?? value))
  const x = (value: number): number => NAME_WIDTH + (value / most) * PLOT_WIDTH
  const rows = bars.map(({ name, value, low, high, series }, index) => {
    const y = index * BAR_HEIGHT
    const middle = y + BAR_HEIGHT / 2
    const bar = `<rect x="${NAME_WIDTH}" y="${y + 4}" width="${(x(value) - NAME_WIDTH).toFixed(1)}" height="${BAR_HEIGHT - 8}" fill="${SERIES_COLOURS[series % SERIES_COLOURS.length]}"/>`
    const whisker = low === undefined || high === undefined ? '' : line(x(low), middle, x(high), middle)
    const label = text(Math.max(x(value), x(high ?? value)) + 6, middle + 4, value.toFixed(0))
    return text(NAME_WIDTH - 8, middle + 4, name, 'end') + bar + whisker + label
  })
  const height = bars.length * BAR_HEIGHT + 8
  return svg(
    NAME_WIDTH + PLOT_WIDTH + 60,
    height,
    title,
    rows.join('') + line(NAME_WIDTH, 0, NAME_WIDTH, bars.length * BAR_HEIGHT, FAINT),
  )
}

const SQUARE = 260
const MARGIN = 44

/** Said against was, by tenths; the size of a dot tells how many; on the diagonal both agree. */
export function reliabilityPlot(title: string, { bins, ece, count }: Calibration, series: number): string {
  const x = (value: number): number => MARGIN + value * SQUARE
  const y = (value: number): number => 10 + (1 - value) * SQUARE
  const used = bins.filter((bin) => bin.count > 0)
  const most = Math.max(1, ...used.map((bin) => bin.count))
  const colour = SERIES_COLOURS[series % SERIES_COLOURS.length] ?? INK
  const path = used.map(({ said, was }) => `${x(said).toFixed(1)},${y(was).toFixed(1)}`).join(' ')
  const dots = used.map(
    ({ said, was, count: cards }) =>
      `<circle cx="${x(said).toFixed(1)}" cy="${y(was).toFixed(1)}" r="${(3 + 8 * Math.sqrt(cards / most)).toFixed(1)}" fill="${colour}" fill-opacity="0.6"><title>${cards} times: said ${said.toFixed(2)}, was ${was.toFixed(2)}</title></circle>`,
  )
  const ticks = [0, 0.5, 1].map(
    (tick) => text(x(tick), y(0) + 18, `${tick}`, 'middle') + text(MARGIN - 8, y(tick) + 4, `${tick}`, 'end'),
  )
  const frame = `<rect x="${MARGIN}" y="10" width="${SQUARE}" height="${SQUARE}" fill="none" stroke="${FAINT}"/>`
  const words = `${title}: error ${ece.toFixed(3)}, ${count} said`
  const body = [
    frame,
    line(x(0), y(0), x(1), y(1), FAINT),
    `<polyline points="${path}" fill="none" stroke="${colour}"/>`,
    ...dots,
    ...ticks,
    text(MARGIN + SQUARE / 2, SQUARE + 46, 'probability that was said', 'middle'),
    text(MARGIN, SQUARE + 66, words),
  ]
  return svg(SQUARE + MARGIN + 20, SQUARE + 76, words, body.join(''))
}
