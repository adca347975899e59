/** Figures of the suspects: chances of parts and stories, what lists and ways cost, what a check is worth. */
import { joined, say } from '../../../base/index.ts'
import {
  comebackCost,
  endingMeans,
  isReballed,
  liftMinutes,
  type PartSuspicion,
  placeSaid,
  priceOf,
  toldStories,
  worthLost,
} from '../../../suspects/index.ts'
import { reachOf } from '../../stores/partFacts.ts'
import { minutesWords, percent, spacedKind } from '../../stores/words.ts'
import { type EntriesOf, given } from '../entry.ts'
import type { FigureInput } from '../figure.ts'
import type { Known } from '../known.ts'

const NOISY_OR = say(
  'J. Pearl, Probabilistic reasoning in intelligent systems (1988), noisy OR; D. Heckerman, A tractable inference algorithm for diagnosing multiple diseases (1989). Priors: common practice, no source.',
)
const PRICE_BOOK = say('Expected cost; prices and minutes: common practice, no source, yours to change.')

export const suspectsEntries: EntriesOf<
  'part-chance' | 'story' | 'remainder' | 'part-cost' | 'list-cost' | 'proposal' | 'check'
> = {
  'part-chance': {
    title: say('Chance that the part must come off'),
    subject: ({ ref }) => ref,
    at: ['suspects'],
    formula: say(
      'Each cause has a prior and a chance to fail each lane that it touches: P(lane passes) = (1 − leak) · ∏(1 − q). All sets of causes that explain the findings are summed; the part’s share is that of the sets in which it, its joints or what lies under it is wrong, less what a wash that is still due is expected to cure under it.',
    ),
    from: [
      say('Lanes that fail, pass or are untested'),
      say('Readings, looks, checks'),
      say('Priors, or your shop’s own record'),
    ],
    source: NOISY_OR,
    limit: say('Priors are assumptions: they are listed at Suspects and can be changed there.'),
    inputs: ({ ref }, known) => [...partLanes(known, ref), ...partWrong(known, ref), ...priors(known)],
  },
  story: {
    title: say('Chance of a story'),
    at: ['suspects'],
    formula: say(
      'The weight of the story’s set of causes (priors times the chance of every lane as it was seen), over the weight of all sets. The stories and the rest add up to 100 %.',
    ),
    from: [
      say('Its causes and their priors'),
      say('Lanes that fail, pass or are untested'),
      say('Readings, looks, checks'),
    ],
    source: NOISY_OR,
    limit: say('A cause that the model does not have falls under “anything else”.'),
    inputs: ({ sentence }, known) => {
      const stories = known.assessment?.suspects.stories.filter((each) => each.sentence === sentence) ?? []
      const causes = stories[0]?.causes ?? []
      const told = toldStories(known.assessment?.suspects.stories ?? []).find((each) => each.sentence === sentence)
      return [
        ...causes.map(({ kind, at }) => ({
          name: `${spacedKind(kind)}: ${placeSaid(at)}`,
          value: priorWords(known, kind),
        })),
        ...lanesOfCard(known),
        ...given(say('stories told as one'), told === undefined || told.count < 2 ? undefined : String(told.count)),
        ...given(say('together'), told === undefined ? undefined : percent(told.probability)),
      ]
    },
  },
  remainder: {
    title: say('Chance of anything else'),
    at: ['suspects'],
    formula: say('100 % less the stories that are shown.'),
    from: [say('The stories')],
    source: NOISY_OR,
    limit: say('It holds what the model sums and does not show, and what it does not know.'),
    inputs: (_, { assessment }) => [
      { name: say('stories that were summed'), value: String(assessment?.suspects.stories.length ?? 0) },
      { name: say('beyond them'), value: percent(assessment?.suspects.remainder ?? 1) },
    ],
  },
  'part-cost': {
    title: say('Cost of lifting it, and of leaving it'),
    subject: ({ ref }) => ref,
    at: ['suspects'],
    formula: say(
      'Lifting: minutes × rate, materials, and the risk of losing it × its price. Leaving: chance × (comeback + a lift then).',
    ),
    from: [say('Chance that it must come off'), say('The price book')],
    source: PRICE_BOOK,
    limit: say('Left parts share one comeback, so that the list as a whole can decide otherwise than one part alone.'),
    inputs: ({ ref }, known) => {
      const found = suspicionOf(known, ref)
      return [
        ...given(say('chance'), found === undefined ? undefined : percent(found.probability)),
        ...liftInputs(known, ref),
        { name: say('one comeback'), value: known.money(comebackCost({ book: known.shop })) },
        ...given(say('lifting it'), found === undefined ? undefined : known.money(found.costIfLifted)),
        ...given(say('leaving it'), found === undefined ? undefined : known.money(found.costIfLeft)),
      ]
    },
  },
  'list-cost': {
    title: say('Lift or leave'),
    at: ['suspects'],
    formula: say(
      'The list with the least expected cost: what lifting its parts costs, plus comeback × P(any part left needs lifting), plus each left part’s chance × its lift then.',
    ),
    from: [say('Chances of parts'), say('The price book')],
    source: PRICE_BOOK,
    limit: say('A card worth more or less to its owner changes the list.'),
    inputs: (_, known) => {
      const suspects = known.assessment?.suspects
      if (suspects === undefined) return []
      const { ofTheList, ofLiftingNone, ofLiftingAllSuspects } = suspects.expectedCost
      return [
        { name: say('on the list'), value: joined(suspects.lift) || 'nothing' },
        ...rate(known),
        { name: say('one comeback'), value: known.money(comebackCost({ book: known.shop })) },
        { name: say('this list'), value: known.money(ofTheList) },
        { name: say('lifting nothing'), value: known.money(ofLiftingNone) },
        { name: say('lifting all suspects'), value: known.money(ofLiftingAllSuspects) },
      ]
    },
  },
  proposal: {
    title: say('What to do first'),
    subject: ({ way }) => way,
    at: ['suspects', 'plan'],
    formula: say(
      'All orders of washing, lifting and looking, replacing, checking and testing are compared as a tree; what is seen on the way decides what follows. Chance, minutes and money are means over all its endings; the way that costs least on average is proposed.',
    ),
    from: [
      say('Stories'),
      say('What each remedy cures, and how surely'),
      say('Risks of lifting and refitting'),
      say('The price book'),
    ],
    source: say(
      'Decision trees by backward induction (H. Raiffa, Decision analysis, 1968). Cures and prices: common practice, no source.',
    ),
    limit: say('How surely a remedy cures is an assumption until your own record says more.'),
    inputs: ({ way }, known) => {
      const { proposal } = known
      const plan = way === '' ? proposal : proposal?.others.find(({ name }) => name === way)
      if (proposal === undefined || plan === undefined) return []
      const endings = way === '' ? (proposal.endings ?? []) : []
      const means = endingMeans(endings)
      const [likeliest] = endings
      const { money } = known.shop
      return [
        ...given(say('ways it can end'), endings.length === 0 ? undefined : String(endings.length)),
        ...given(
          say('the likeliest'),
          likeliest === undefined
            ? undefined
            : say('{probability}: {minutes}, {money}, works {works}', {
                probability: percent(likeliest.probability),
                minutes: minutesWords(likeliest.minutes),
                money: known.money(likeliest.money),
                works: percent(likeliest.works),
              }),
        ),
        ...given(say('works in the end'), plan.works === undefined ? undefined : percent(plan.works)),
        { name: say('time on average'), value: minutesWords(plan.minutes) },
        ...given(say('bill on average'), means === undefined ? undefined : known.money(means.money)),
        { name: say('with all that can go wrong'), value: known.money(plan.expectedCost) },
        ...rate(known),
        { name: say('one comeback'), value: known.money(comebackCost({ book: known.shop })) },
        { name: say('lost where it can’t be mended'), value: known.money(worthLost(money.valueIfFailed, known.shop)) },
      ]
    },
  },
  check: {
    title: say('Next checks'),
    subject: ({ at }) => at,
    at: ['suspects'],
    formula: say(
      'What the check saves on average, over its minutes: cost of the best way now, less its mean over both answers.',
    ),
    from: [say('Stories'), say('How surely the check finds each kind of cause')],
    source: say(
      'Value of information (R. Howard, Information value theory, 1966). How surely checks find: common practice, no source.',
    ),
    limit: say('A check that the judge of power forbids is not proposed.'),
    inputs: ({ check, at }, known) => {
      const found = known.checks?.checks.find((each) => each.check === check && each.at === at)
      if (found === undefined) return []
      return [
        { name: say('chance that it finds something'), value: percent(found.finds) },
        { name: say('takes'), value: minutesWords(found.minutes) },
        ...given(say('saves on average'), found.saves === undefined ? undefined : known.money(found.saves)),
        ...rate(known),
      ]
    },
  },
}

const suspicionOf = ({ assessment }: Known, ref: string): PartSuspicion | undefined =>
  assessment?.suspects.parts.find((part) => part.ref === ref)

const rate = ({ shop, money }: Known): FigureInput[] => [
  { name: say('rate'), value: say('{rate} an hour', { rate: money(shop.money.hourlyRate) }) },
]

function partLanes(known: Known, ref: string): FigureInput[] {
  const part = known.tally?.parts.find((each) => each.ref === ref)
  if (part === undefined) return lanesOfCard(known)
  return given(say('its lanes'), laneCounts(part.channels.flatMap(({ lanes }) => lanes)))
}

function lanesOfCard({ tally }: Known): FigureInput[] {
  if (tally === undefined) return [{ name: say('lanes'), value: say('no memory run') }]
  return given(
    say('lanes of the card'),
    laneCounts(tally.parts.flatMap(({ channels }) => channels.flatMap(({ lanes }) => lanes))),
  )
}

/** `2 fail, 6 pass`; nothing where there is no lane. */
function laneCounts(lanes: readonly { readonly state: 'fail' | 'pass' | 'untested' }[]): string {
  const told = [
    ['fail', 'fail'],
    ['pass', 'pass'],
    ['untested', say('not tested')],
  ] as const
  return told
    .map(([state, words]) => [lanes.filter((lane) => lane.state === state).length, words] as const)
    .filter(([count]) => count > 0)
    .map(([count, words]) => `${count} ${words}`)
    .join(', ')
}

function partWrong(known: Known, ref: string): FigureInput[] {
  const found = suspicionOf(known, ref)
  const reached = reachOf(known.assessment, ref)
  return [
    ...(found === undefined
      ? []
      : [
          { name: say('bad itself'), value: percent(found.wrong.die) },
          { name: say('its joints'), value: percent(found.wrong.joints) },
          { name: say('something under it'), value: percent(found.wrong.beneath) },
          { name: say('together'), value: percent(found.probability) },
          { name: say('less what a wash is expected to do'), value: percent(found.probability - found.comesOff) },
        ]),
    ...given(say('reached by a spill'), reached === undefined ? undefined : percent(reached)),
  ]
}

function priors(known: Known): FigureInput[] {
  const { die, joints, core } = known.assumptions.prior
  return [
    {
      name: say('priors'),
      value: say('a die {die}, joints of a lane {joints}, the core {core}', {
        die: share(die),
        joints: share(joints),
        core: share(core),
      }),
    },
    ...given(
      say('shop’s own record'),
      known.present.ownRecord === undefined
        ? undefined
        : say('{cards, plural, one {# card} other {# cards}}', { cards: known.present.ownRecord.cards }),
    ),
    ...given(
      say('changed by you'),
      known.present.assumptions === undefined ? undefined : say('some figures, see Assumptions'),
    ),
  ]
}

function priorWords(known: Known, kind: string): string {
  if (kind === 'spill') return say('reported, taken as seen')
  const value: unknown = Reflect.get(known.assumptions.prior, kind)
  return typeof value === 'number' ? say('prior {value}', { value: share(value) }) : say('as marked')
}

/** A prior keeps two digits that say something. */
const share = (value: number): string => `${Number((value * 100).toPrecision(2))}\u00a0%`

function liftInputs(known: Known, ref: string): FigureInput[] {
  const part = known.model.partByRef.get(ref)
  if (part === undefined) return []
  const prices = { book: known.shop, risk: known.assumptions.risk }
  const risks = { core: prices.risk.coreDamage, memory: prices.risk.memoryDamage } as const
  const risk = part.kind === 'core' || part.kind === 'memory' ? risks[part.kind] : prices.risk.otherDamage
  return [
    { name: say('lift, clean, refit, look over'), value: minutesWords(liftMinutes(part, prices)) },
    ...rate(known),
    {
      name: isReballed(part) ? say('risk of losing it') : say('always replaced; price'),
      value: isReballed(part) ? share(risk) : known.money(priceOf(part, known.shop)),
    },
    ...given(say('price of a new one'), isReballed(part) ? known.money(priceOf(part, known.shop)) : undefined),
  ]
}
