/** The scorecard as one page: what a card cost, by whom and by kind, and how far what was said held. */
import { type Bar, barPlot, reliabilityPlot } from './plots.ts'
import type { Group, Scorecard } from './scorecard.ts'

const NAMES: Readonly<Record<string, string>> = {
  liftmap: 'Liftmap, its list at once',
  steps: 'Liftmap, in steps',
  named: 'what the report names',
  namedAndCore: 'and the core from two on',
  ring: 'and the core always',
  allKnowing: 'who knows the truth',
  allKnowingInSteps: 'who knows it, with repairs beside and the last run',
}

/** Each has one colour on the whole page. */
const SERIES = Object.keys(NAMES)

const STYLE =
  'body{font:16px/1.5 sans-serif;max-width:60rem;margin:2rem auto;padding:0 1rem;background:#faf6ec;color:#3b372f}\ntable{border-collapse:collapse;font-size:14px}th,td{padding:2px 10px;white-space:nowrap;text-align:right;border-bottom:1px solid #ddd5c3}\nth{white-space:normal}th:first-child,td:first-child{text-align:left}.row{display:flex;flex-wrap:wrap;gap:1rem}svg{max-width:100%;height:auto}'

/**
 * One HTML page that needs no other file. Costs are in the shop's currency with 95 % intervals where the card has
 * them. In English: it is for who works on the reasoning.
 */
export function scorecardPage(card: Scorecard): string {
  const { reliability } = card
  const costs = Object.entries(card.cost).map(([name, value]): Bar => {
    const { low, high } = card.ci[`cost.${name}`] ?? {}
    const range = low === undefined || high === undefined ? {} : { low, high }
    return { name: NAMES[name] ?? name, value, series: SERIES.indexOf(name), ...range }
  })
  return `<!doctype html><html lang="en"><meta charset="utf-8"><title>Scorecard</title><style>${STYLE}</style>
<h1>How right it is</h1>
<p>${card.cards} made-up cards with a known truth, seed ${card.seed}, mixture ${card.mixture}; the core had to come off on
${percent(card.coreShare)}. The true cause stood first on ${percent(card.first)}, among the first three on
${percent(card.firstThree)}. A card: ${card.missed.toFixed(2)} needed parts missed, ${card.needless.toFixed(2)} lifted for nothing.</p>
<h2>Cost of a card</h2><p>In the shop's currency; lines are ranges of 95 % over the cards.</p>
${barPlot('Cost of a card', costs)}
<h2>What was said and what was so</h2>
<div class="row">${reliabilityPlot('Core', reliability.core, 0)}${reliabilityPlot('Packages that failed', reliability.failing, 1)}${reliabilityPlot('All parts', reliability.all, 2)}</div>
<h2>By what had happened</h2>${groupPlot(card.byKind)}${groupTable(card.byKind)}
<h2>By packages that the report names</h2>${groupTable(card.byFailing)}
<h2>By board</h2>${groupTable(card.byBoard)}
<h2>By substance</h2>${groupTable(card.bySubstance)}
<h2>By what the owner said</h2>${groupTable(card.byTold)}
<h2>With less to go by</h2>${withoutTable(card)}
</html>
`
}

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`

function groupPlot(groups: Readonly<Record<string, Group>>): string {
  const shown = ['liftmap', 'steps', 'namedAndCore', 'allKnowing']
  const bars = Object.entries(groups).flatMap(([name, { cost }]) =>
    shown.flatMap((of): Bar[] => {
      const value = cost[of]
      return value === undefined ? [] : [{ name: `${name}: ${SHORT[of] ?? of}`, value, series: SERIES.indexOf(of) }]
    }),
  )
  return barPlot('Cost by what had happened', bars)
}

const SHORT: Readonly<Record<string, string>> = {
  liftmap: 'list at once',
  steps: 'in steps',
  namedAndCore: 'plain rule',
  allKnowing: 'known',
}

function groupTable(groups: Readonly<Record<string, Group>>): string {
  const costs = [...new Set(Object.values(groups).flatMap(({ cost }) => Object.keys(cost)))]
  const head = [
    '',
    'cards',
    ...costs.map((name) => NAMES[name] ?? name),
    'first',
    'missed',
    'needless',
    'core said',
    'core was',
  ]
  const rows = Object.entries(groups).map(([name, group]) => [
    name,
    `${group.cards}`,
    ...costs.map((of) => (group.cost[of] ?? 0).toFixed(0)),
    percent(group.first),
    group.missed.toFixed(2),
    group.needless.toFixed(2),
    group.coreSaid.toFixed(2),
    group.coreWas.toFixed(2),
  ])
  return table(head, rows)
}

function withoutTable({ without }: Scorecard): string {
  const names: Readonly<Record<string, string>> = {
    nothingLess: 'everything',
    looks: 'without looks',
    readings: 'without readings',
    looksAndReadings: 'without either',
    withChecks: 'all cards, after the checks that were proposed',
  }
  const rows = Object.entries(without).map(([name, { cards, liftmap, eceCore }]) => [
    names[name] ?? name,
    `${cards}`,
    liftmap.toFixed(0),
    eceCore.toFixed(3),
  ])
  return table(['', 'cards', 'cost of the list', 'error at the core'], rows)
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const cells = (tag: 'th' | 'td', row: readonly string[]): string =>
    `<tr>${row.map((cell) => `<${tag}>${cell}</${tag}>`).join('')}</tr>`
  return `<table>${cells('th', head)}${rows.map((row) => cells('td', row)).join('')}</table>`
}
