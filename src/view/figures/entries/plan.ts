/** Figures of the plan: minutes and money of a step and of all, harm, the chance that it works, whether it pays. */
import { plainly, say } from '../../../base/index.ts'
import { endingMeans, minutesToMoney } from '../../../suspects/index.ts'
import { type PlanAnswer, type PlanStep, stepTitle, wholeWorth } from '../../../plan/index.ts'
import { minutesWords, percent } from '../../stores/words.ts'
import { type EntriesOf, given } from '../entry.ts'
import type { FigureInput } from '../figure.ts'
import type { Known } from '../known.ts'

const PRICES = say(
  'Minutes and prices of the price book: common practice, no source, yours to change under “Bench and prices”.',
)
const SAME_TREE = say(
  'The same sum as “What to do first” (H. Raiffa, Decision analysis, 1968). Cures: common practice, no source.',
)

export const planEntries: EntriesOf<
  | 'step-minutes'
  | 'step-cost'
  | 'plan-minutes'
  | 'plan-cost'
  | 'plan-harm'
  | 'plan-works'
  | 'worth'
  | 'order'
  | 'recipe'
> = {
  'step-minutes': {
    title: say('Minutes of a step'),
    subject: ({ n }) => say('step {n}', { n }),
    at: ['plan'],
    formula: say(
      'Heated steps: plate and air as set, and the handling. Others: the minutes of the price book, by area and balls of the part, at the shop’s pace. Hours in the oven stand apart.',
    ),
    from: [say('The step'), say('The price book'), say('Heat of the pass')],
    source: PRICES,
    limit: say('Your hands are not in it: noted minutes move the shop’s pace.'),
    inputs: ({ n }, known) => {
      const step = stepOf(known, n)
      const { pace } = known.shop
      return step === undefined
        ? []
        : [
            ...stepInputs(step),
            {
              name: say('shop’s pace'),
              value: say('core × {core}, memory × {memory}, others × {other}', {
                core: two(pace.core),
                memory: two(pace.memory),
                other: two(pace.other),
              }),
            },
          ]
    },
  },
  'step-cost': {
    title: say('Cost of a step'),
    subject: ({ n }) => say('step {n}', { n }),
    at: ['plan'],
    formula: say('Minutes × rate, and its materials and new parts.'),
    from: [say('Minutes of the step'), say('Rate'), say('Materials')],
    source: PRICES,
    limit: say('What goes wrong in the step is not in it: see harm to neighbours.'),
    inputs: ({ n }, known) => {
      const step = stepOf(known, n)
      if (step === undefined) return []
      const work = minutesToMoney(step.minutes, known.shop)
      return [
        ...stepInputs(step),
        rate(known),
        { name: say('work'), value: known.money(work) },
        { name: say('materials and new parts'), value: known.money(Math.max(0, step.cost - work)) },
      ]
    },
  },
  'plan-minutes': {
    title: say('Time at the bench'),
    at: ['plan'],
    formula: say(
      'The minutes of all steps that are left, added up; hours in the oven stand apart, nobody waits beside it.',
    ),
    from: [say('Minutes of each step')],
    source: PRICES,
    limit: say('Your hands are not in it: noted minutes move the shop’s pace.'),
    inputs: (_, { answer }) => {
      if (answer === undefined) return []
      const { steps, minutes } = answer.best
      const hours = steps.reduce((sum, step) => sum + (step.hours ?? 0), 0)
      return [
        { name: say('steps'), value: String(steps.length) },
        ...longest(steps).map((step) => ({ name: stepTitle(step), value: minutesWords(step.minutes) })),
        { name: say('together'), value: minutesWords(minutes) },
        ...given(say('in the oven'), hours === 0 ? undefined : `${two(hours)} h`),
      ]
    },
  },
  'plan-cost': {
    title: say('Cost of repair'),
    at: ['plan'],
    formula: say('Minutes × rate, materials, and new parts.'),
    from: [say('Minutes of all steps'), say('Rate'), say('Materials')],
    source: PRICES,
    limit: say('Only these steps; what follows from what is found comes on top.'),
    inputs: (_, known) => {
      const best = known.answer?.best
      if (best === undefined) return []
      return [
        { name: say('time'), value: minutesWords(best.minutes) },
        rate(known),
        { name: say('work'), value: known.money(minutesToMoney(best.minutes, known.shop)) },
        {
          name: say('materials and new parts'),
          value: known.money(best.materials.reduce((sum, { cost }) => sum + cost, 0)),
        },
        { name: say('together'), value: known.money(best.cost) },
      ]
    },
  },
  'plan-harm': {
    title: say('Harm to neighbours'),
    at: ['plan'],
    formula: say(
      'Of each neighbour that a heating melts, brings near melting, or takes over its body’s limit: chance that it is spoiled × what that costs. Earlier meltings and hanging below raise the chance.',
    ),
    from: [say('Heat of each heating'), say('Heats so far'), say('Prices')],
    source: say('Heat limits: J-STD-020. Chances of harm: common practice, no source.'),
    limit: say('A stated guess that ranks orders; no count of spoiled parts stands behind it.'),
    inputs: (_, { answer, shop, money }) => {
      if (answer === undefined) return []
      const { exposure } = shop
      const exposed = answer.best.steps.flatMap((step) => step.exposed)
      return [
        { name: say('neighbours that melt'), value: String(exposed.filter(({ melts }) => melts).length) },
        { name: say('over their limit'), value: String(exposed.filter(({ overLimit }) => overLimit).length) },
        { name: say('spoiled when it melts'), value: percent(exposure.meltRisk) },
        { name: say('each earlier melt adds'), value: percent(exposure.perHeatCount) },
        { name: say('hanging below'), value: `× ${exposure.hangingFactor}` },
        { name: say('body over its limit'), value: percent(exposure.overLimitRisk) },
        { name: say('no part is spoiled'), value: percent(answer.best.unharmed) },
        { name: say('harm on average'), value: money(answer.best.exposureCost) },
      ]
    },
  },
  'plan-works': {
    title: say('Works afterwards'),
    at: ['plan'],
    formula: say(
      'Chance that the work cures what is wrong × chance that no part is spoiled in passing; torn pads and glue take their share.',
    ),
    from: [say('Stories'), say('Cures and losses'), say('Heat of each heating')],
    source: SAME_TREE,
    limit: say('An average over many such cards, not a promise for this one.'),
    inputs: (_, { answer, assessment }) =>
      answer === undefined
        ? []
        : [
            ...given(
              say('the list cures it'),
              assessment === undefined ? undefined : percent(assessment.suspects.works),
            ),
            { name: say('after pads and glue'), value: percent(answer.worth.curesProbability) },
            { name: say('no part is spoiled'), value: percent(answer.best.unharmed) },
            { name: say('together'), value: percent(answer.worth.successProbability) },
          ],
  },
  worth: {
    title: say('Works in the end, worth it'),
    at: ['plan', 'suspects', 'hand-back'],
    formula: say(
      'Works × value then + (1 − works) × value if it fails − cost − value as it is. Break-even: the value then at which that is nil.',
    ),
    from: [say('Stories'), say('Cures and losses'), say('The price book')],
    source: SAME_TREE,
    limit: say('An average over many such cards, not a promise for this one.'),
    inputs: (_, known) => (known.answer === undefined ? [] : worthInputs(known, known.answer)),
  },
  recipe: {
    title: say('How a step is done'),
    subject: ({ n }) => (n === 0 ? '' : say('step {n}', { n })),
    at: ['plan'],
    formula: say(
      'Times and temperatures of washing, drying, baking and cleaning come with the substance and the part; each has its source there.',
    ),
    from: [say('The substance'), say('The part and its class')],
    source: say('Drying and baking of parts: J-STD-033. Washing: common practice, no source, listed at Spill.'),
    limit: say('What your chemical’s data sheet says comes first.'),
    inputs: ({ n }, known) => {
      const step = stepOf(known, n)
      return step === undefined ? [] : stepInputs(step)
    },
  },
  order: {
    title: say('Order of steps'),
    at: ['plan'],
    formula: say(
      'Of all orders the one that costs least in minutes and in harm to neighbours; beyond 12 parts the best that a search finds, with the gap that may be left.',
    ),
    from: [say('The lift list'), say('Heat of each heating'), say('Heats so far')],
    source: say('M. Held and R. Karp, A dynamic programming approach to sequencing problems (1962).'),
    limit: say('Harm to neighbours is a stated guess that ranks orders.'),
    inputs: (_, { answer, money }) =>
      answer === undefined
        ? []
        : [
            {
              name: say('this order'),
              value: say('{cost} and {harm} of harm', {
                cost: money(answer.best.cost),
                harm: money(answer.best.exposureCost),
              }),
            },
            { name: say('proved to be the best'), value: answer.best.optimality.proved ? say('yes') : say('no') },
            ...given(
              say('the other way costs'),
              answer.alternative === undefined
                ? undefined
                : say('{costsMore} more', { costsMore: money(answer.alternative.costsMore) }),
            ),
          ],
  },
}

function worthInputs({ shop, proposal, money }: Known, { worth }: PlanAnswer): FigureInput[] {
  const means = endingMeans(proposal?.endings ?? [])
  const { valueIfRepaired, valueIfFailed, valueAsIs } = shop.money
  const signed = (amount: number): string => `${amount < 0 ? '−' : '+'}${money(Math.abs(amount))}`
  return [
    { name: say('value if it works'), value: money(valueIfRepaired) },
    { name: say('value if it fails'), value: money(valueIfFailed) },
    { name: say('value as it is'), value: money(valueAsIs) },
    {
      name: say('these steps'),
      value: say('work {works}, cost {cost}: {gain}', {
        works: percent(worth.successProbability),
        cost: money(worth.costOfRepair),
        gain: signed(worth.expectedGain),
      }),
    },
    ...given(
      say('all that is proposed'),
      means === undefined
        ? undefined
        : say('works {works}, costs {money}: {gain}', {
            works: percent(means.works),
            money: money(means.money),
            gain: signed(wholeWorth(means, shop.money).gain),
          }),
    ),
    ...given(
      say('these steps break even at'),
      Number.isFinite(worth.breakEvenValue) ? money(worth.breakEvenValue) : undefined,
    ),
  ]
}

const stepOf = ({ answer }: Known, n: number): PlanStep | undefined => answer?.best.steps.find((step) => step.n === n)

const stepInputs = (step: PlanStep): FigureInput[] => [
  { name: say('work'), value: stepTitle(step) },
  { name: say('minutes'), value: minutesWords(step.minutes) },
  ...given(say('in the oven'), step.hours === undefined ? undefined : `${two(step.hours)} h`),
]

const rate = ({ shop, money }: Known): FigureInput => ({
  name: say('rate'),
  value: say('{rate} an hour', { rate: money(shop.money.hourlyRate) }),
})

const LONGEST = 3
const longest = (steps: readonly PlanStep[]): PlanStep[] =>
  steps.toSorted((a, b) => b.minutes - a.minutes).slice(0, LONGEST)

const two = (value: number): string => plainly(Number(value.toFixed(2)))
