/** How each figure on the screen is worked out: formula, what goes in, where the rule is from, and what it does not know. */
import { say } from '../../base/index.ts'
import type { Station } from '../../case/index.ts'

export interface WorkedOut {
  readonly figure: string
  readonly at: readonly Station[]
  readonly formula: string
  readonly from: readonly string[]
  readonly source: string
  /** What the figure can't know. */
  readonly limit: string
}

export const workedOut: readonly WorkedOut[] = [
  {
    figure: say('In range, low, short'),
    at: ['cold-measuring', 'powered-measuring'],
    formula: say(
      'The reading, less the resistance of the leads, against the range of that rail. The range: the board’s own, else your good cards, else what is usual for that kind of rail and the packages on it.',
    ),
    from: ['Readings', 'Leads', say('Ranges of the board, good cards')],
    source: say('Ranges by kind of rail: common practice, no source; each is listed in the measuring sheet.'),
    limit: say('A reading in range does not prove a rail good.'),
  },
  {
    figure: say('Where a short sits'),
    at: ['cold-measuring'],
    formula: say(
      'The rail’s copper as a sheet of resistors; the place whose voltage map fits the millivolts best, weighed by the meter’s error.',
    ),
    from: [
      say('Injected current and where'),
      say('Millivolts read'),
      say('Copper of the rail, where the board has it'),
    ],
    source: say('Ohm’s and Kirchhoff’s laws; resistivity of copper after IEC 60028 (1925).'),
    limit: say('Without drawn copper a whole plane is assumed.'),
  },
  {
    figure: say('Errors per package, lane and bit'),
    at: ['memory-run', 'proof'],
    formula: say(
      'Each line’s address goes through the board’s address map to a channel; expected XOR actual gives the bits. Where a line names a part or lane, the name counts.',
    ),
    from: [say('The report'), say('The address map of the board'), say('What foreign names mean')],
    source: say(
      'Parity masks after P. Pessl and others, DRAMA: exploiting DRAM addressing for cross-CPU attacks (2016).',
    ),
    limit: say('What a report does not name is untested, not passed.'),
  },
  {
    figure: say('Radius and rings of a spill'),
    at: ['spill'],
    formula: say(
      'Shortest way from the spot, with its own speed on bare mask and under each body; it reaches as far as its volume fills films, gaps and drops. Puddle height h = 2·lc·sin(θ/2), lc = √(γ/(ρ·g)).',
    ),
    from: [say('Place, amount, substance'), say('How the card hung'), say('Gaps under parts, dams')],
    source: say(
      'J. Sethian, A fast marching level set method (1996); P.-G. de Gennes and others, Capillarity and wetting phenomena (2003); E. Washburn, The dynamics of capillary flow (1921).',
    ),
    limit: say('Amount and gaps are spread over, so rings are likely reaches, not edges.'),
  },
  {
    figure: say('Chance that it reached a part'),
    at: ['spill', 'suspects'],
    formula: say(
      'The share of all places, amounts and gaps that reach it, each by its weight. “With test results” weighs them by how well they explain what fails and passes.',
    ),
    from: [say('How sure the place is'), say('The memory run'), say('What was seen')],
    source: say(
      'Bayes’ rule over equally spread places (H. Niederreiter, Random number generation and quasi-Monte Carlo methods, 1992).',
    ),
    limit: say('Reached is not failed: what passes is left alone.'),
  },
  {
    figure: say('Chances of stories and parts'),
    at: ['suspects'],
    formula: say(
      'Each cause has a prior and a chance to fail each lane that it touches: P(lane passes) = (1 − leak) · ∏(1 − q). All sets of causes that explain the findings are summed; the stories and the rest add up to 100 %.',
    ),
    from: [
      say('Lanes that fail, pass or are untested'),
      say('Readings, looks, checks'),
      say('Priors, or your shop’s own record'),
    ],
    source: say(
      'J. Pearl, Probabilistic reasoning in intelligent systems (1988), noisy OR; D. Heckerman, A tractable inference algorithm for diagnosing multiple diseases (1989).',
    ),
    limit: say('Priors are assumptions: they are listed at Suspects and can be changed there.'),
  },
  {
    figure: say('Lift or leave'),
    at: ['suspects', 'plan'],
    formula: say(
      'A part is on the list where leaving it costs more on average than lifting it: chance × comeback against minutes, materials, risk and price.',
    ),
    from: [say('Chances of parts'), say('The price book')],
    source: say('Expected cost; prices and minutes: common practice, no source, yours to change.'),
    limit: say('A card worth more or less to its owner changes the list.'),
  },
  {
    figure: say('What to do first'),
    at: ['suspects', 'plan'],
    formula: say(
      'All orders of washing, lifting and looking, replacing, checking and testing are compared as a tree; what is seen on the way decides what follows. The cheapest on average is proposed.',
    ),
    from: ['Stories', say('What each remedy cures, and how surely'), say('Risks of lifting and refitting')],
    source: say('Decision trees by backward induction (H. Raiffa, Decision analysis, 1968).'),
    limit: say('How surely a remedy cures is an assumption until your own record says more.'),
  },
  {
    figure: say('Next checks'),
    at: ['suspects'],
    formula: say('What the check saves on average, over its minutes.'),
    from: ['Stories', say('How surely the check finds each kind of cause')],
    source: say('Value of information (R. Howard, Information value theory, 1966).'),
    limit: say('A check that the judge of power forbids is not proposed.'),
  },
  {
    figure: say('Temperatures and settings'),
    at: ['plan'],
    formula: say(
      'Heat flow through the board, layer by layer lumped to a sheet, stepped in time with the printed air and plate. The setting melts every joint of the part and keeps its neighbours coolest.',
    ),
    from: [say('Board, copper, parts'), say('Nozzle, air, preheater')],
    source: say(
      'J-STD-020 (limits of bodies); J. Douglas, Alternating direction methods for three space variables (1962).',
    ),
    limit: say('The thermocouple at the joint counts, not the model.'),
  },
  {
    figure: say('Order of steps'),
    at: ['plan'],
    formula: say(
      'Of all orders the one that costs least in minutes and in harm to neighbours; beyond 12 parts the best that a search finds, with the gap that may be left.',
    ),
    from: [say('The lift list'), say('Heat of each pass'), say('Heats so far')],
    source: say('M. Held and R. Karp, A dynamic programming approach to sequencing problems (1962).'),
    limit: say('Harm to neighbours is a stated guess that ranks orders.'),
  },
  {
    figure: say('Works in the end, worth it'),
    at: ['plan', 'suspects', 'hand-back'],
    formula: say(
      'The share of all ways the work can end in which the card works; worth: that share of its value, less work, parts and risk.',
    ),
    from: ['Stories', say('Cures and losses'), say('The price book')],
    source: say('The same sum as “what to do first”.'),
    limit: say('An average over many such cards, not a promise for this one.'),
  },
  {
    figure: say('At most so often, per run'),
    at: ['proof'],
    formula: say('After n error-free runs: at most 1 − 0.05^(1/n) per run, at 95 %; about 3/n.'),
    from: [say('Error-free runs since the work')],
    source: say('J. Hanley and A. Lippman-Hand, If nothing goes wrong, is everything all right? (1983).'),
    limit: say('Holds for such runs: a hotter card or another test may still fail.'),
  },
]

/** Figures of one station, in the order of the list. */
export const workedOutAt = (station: Station): readonly WorkedOut[] =>
  workedOut.filter(({ at }) => at.includes(station))
