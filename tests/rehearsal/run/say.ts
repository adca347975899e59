/** The scorecard as a few lines for people. */
import type { Scorecard } from '../../../src/rehearsal/index.ts'

const number = (value: number, digits = 0): string => value.toFixed(digits)
const share = (value: number): string => `${(100 * value).toFixed(1)} %`

function sayWithout({ without, steps }: Scorecard): string[] {
  const lines = Object.entries(without).map(
    ([name, { cards, liftmap, eceCore }]) =>
      `  ${name.padEnd(18)} ${`${cards}`.padStart(4)}  list ${number(liftmap)}, error at the core ${number(eceCore, 3)}`,
  )
  if (steps === undefined) return ['With less:', ...lines]
  const { costBesideProof, checks, minutesOfChecks, rounds, comebacks, orders } = steps
  return [
    'With less or more:',
    ...lines,
    `In steps: ${number(checks, 1)} checks of ${number(minutesOfChecks, 1)} minutes, ${number(rounds, 2)} rounds, ${share(comebacks)} come back; ${number(costBesideProof)} beside the last test`,
    `  on ${orders.cards} cards: as proposed ${number(orders.steps)}, by chance ${number(orders.random)}, fixed order ${number(orders.fixed)}, no checks ${number(orders.noChecks)}`,
  ]
}

function sayRemedies({ remedies }: Scorecard): string[] {
  if (remedies === undefined) return []
  const { cards, cost, ratio, ends, minutes, runs, said } = remedies
  const workers = Object.entries(cost).map(([name, { value, low, high }]) => {
    const own = Object.entries(name === 'plain' ? ends.plain : name === 'proposals' ? ends.proposals : ends.allKnowing)
    return `  ${name.padEnd(14)} ${number(value)} (${number(low)} to ${number(high)}); ${own.map(([end, part]) => `${end} ${share(part)}`).join(', ')}`
  })
  const ratios = Object.entries(ratio).map(
    ([name, { value, low, high }]) =>
      `  ${name.padEnd(14)} ${number(value, 2)} (${number(low, 2)} to ${number(high, 2)})`,
  )
  return [
    `Remedy by remedy, on ${cards} cards, ${number(minutes)} minutes and ${number(runs, 1)} runs a card:`,
    ...workers,
    ...ratios,
    `  promised at first on ${said.cards} cards: works ${share(said.works)} (${share(said.worked)} did, calibration error ${number(said.ece, 3)}), cost ${number(said.cost)} (${number(said.came)} came)`,
  ]
}

export function sayScorecard(card: Scorecard, failed: number): string {
  const costs = Object.entries(card.cost).map(([name, value]) => {
    const range = card.ci[`cost.${name}`]
    return `  ${name.padEnd(18)} ${number(value)} (${number(range?.low ?? 0)} to ${number(range?.high ?? 0)})`
  })
  const ratios = Object.entries(card.ratio).map(
    ([name, { value, low, high }]) =>
      `  ${name.padEnd(24)} ${number(value, 2)} (${number(low, 2)} to ${number(high, 2)})`,
  )
  const kinds = Object.entries(card.byKind).map(([kind, group]) => {
    const own = Object.entries(group.cost).map(([name, value]) => `${name} ${number(value)}`)
    return `  ${kind.padEnd(16)} ${`${group.cards}`.padStart(4)}  ${own.join(', ')}; first ${share(group.first)}`
  })
  return [
    `${card.cards} cards, seed ${card.seed}, mixture ${card.mixture}; the core is needed on ${share(card.coreShare)}`,
    ...(failed > 0 ? [`${failed} cards could not be scored.`] : []),
    'Cost a card (95 %):',
    ...costs,
    ...ratios,
    `True cause first ${share(card.first)}, in the first three ${share(card.firstThree)}; parts first ${share(card.firstByPart)}`,
    `Missed ${number(card.missed, 2)}, needless ${number(card.needless, 2)} parts a card`,
    `Calibration error: core ${number(card.ece.core, 3)}, failing ${number(card.ece.failing, 3)}, all ${number(card.ece.all, 3)} (by chance ${number(card.eceByChance.core, 3)}, ${number(card.eceByChance.failing, 3)}, ${number(card.eceByChance.all, 3)})`,
    ...sayWithout(card),
    ...sayRemedies(card),
    `Place of a reported spill: ${number(card.place.errorMm, 1)} mm off (mark ${number(card.place.markMm, 1)} mm)`,
    `Judgement: median ${number(card.milliseconds.median)} ms, mean ${number(card.milliseconds.mean)} ms`,
    'By kind:',
    ...kinds,
  ].join('\n')
}
