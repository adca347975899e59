/** How each figure on the screen is worked out: formula, what goes in, where the rule is from, and what it does not know. */
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
    figure: 'In range, low, short',
    at: ['cold-measuring', 'powered-measuring'],
    formula:
      'The reading, less the resistance of the leads, against the range of that rail. The range: the board’s own, else your good cards, else what is usual for that kind of rail and the packages on it.',
    from: ['Readings', 'Leads', 'Ranges of the board, good cards'],
    source: 'Ranges by kind of rail: common practice, no source; each is listed in the measuring sheet.',
    limit: 'A reading in range does not prove a rail good.',
  },
  {
    figure: 'Where a short sits',
    at: ['cold-measuring'],
    formula:
      'The rail’s copper as a sheet of resistors; the place whose voltage map fits the millivolts best, weighed by the meter’s error.',
    from: ['Injected current and where', 'Millivolts read', 'Copper of the rail, where the board has it'],
    source: 'Ohm’s and Kirchhoff’s laws; resistivity of copper after IEC 60028 (1925).',
    limit: 'Without drawn copper a whole plane is assumed.',
  },
  {
    figure: 'Errors per package, lane and bit',
    at: ['memory-run', 'proof'],
    formula:
      'Each line’s address goes through the board’s address map to a channel; expected XOR actual gives the bits. Where a line names a part or lane, the name counts.',
    from: ['The report', 'The address map of the board', 'What foreign names mean'],
    source: 'Parity masks after P. Pessl and others, DRAMA: exploiting DRAM addressing for cross-CPU attacks (2016).',
    limit: 'What a report does not name is untested, not passed.',
  },
  {
    figure: 'Radius and rings of a spill',
    at: ['spill'],
    formula:
      'Shortest way from the spot, with its own speed on bare mask and under each body; it reaches as far as its volume fills films, gaps and drops. Puddle height h = 2·lc·sin(θ/2), lc = √(γ/(ρ·g)).',
    from: ['Place, amount, substance', 'How the card hung', 'Gaps under parts, dams'],
    source:
      'J. Sethian, A fast marching level set method (1996); P.-G. de Gennes and others, Capillarity and wetting phenomena (2003); E. Washburn, The dynamics of capillary flow (1921).',
    limit: 'Amount and gaps are spread over, so rings are likely reaches, not edges.',
  },
  {
    figure: 'Chance that it reached a part',
    at: ['spill', 'suspects'],
    formula:
      'The share of all places, amounts and gaps that reach it, each by its weight. “With test results” weighs them by how well they explain what fails and passes.',
    from: ['How sure the place is', 'The memory run', 'What was seen'],
    source:
      'Bayes’ rule over equally spread places (H. Niederreiter, Random number generation and quasi-Monte Carlo methods, 1992).',
    limit: 'Reached is not failed: what passes is left alone.',
  },
  {
    figure: 'Chances of stories and parts',
    at: ['suspects'],
    formula:
      'Each cause has a prior and a chance to fail each lane that it touches: P(lane passes) = (1 − leak) · ∏(1 − q). All sets of causes that explain the findings are summed; the stories and the rest add up to 100 %.',
    from: ['Lanes that fail, pass or are untested', 'Readings, looks, checks', 'Priors, or your shop’s own record'],
    source:
      'J. Pearl, Probabilistic reasoning in intelligent systems (1988), noisy OR; D. Heckerman, A tractable inference algorithm for diagnosing multiple diseases (1989).',
    limit: 'Priors are assumptions: they are listed at Suspects and can be changed there.',
  },
  {
    figure: 'Lift or leave',
    at: ['suspects', 'plan'],
    formula:
      'A part is on the list where leaving it costs more on average than lifting it: chance × comeback against minutes, materials, risk and price.',
    from: ['Chances of parts', 'The price book'],
    source: 'Expected cost; prices and minutes: common practice, no source, yours to change.',
    limit: 'A card worth more or less to its owner changes the list.',
  },
  {
    figure: 'What to do first',
    at: ['suspects', 'plan'],
    formula:
      'All orders of washing, lifting and looking, replacing, checking and testing are compared as a tree; what is seen on the way decides what follows. The cheapest on average is proposed.',
    from: ['Stories', 'What each remedy cures, and how surely', 'Risks of lifting and refitting'],
    source: 'Decision trees by backward induction (H. Raiffa, Decision analysis, 1968).',
    limit: 'How surely a remedy cures is an assumption until your own record says more.',
  },
  {
    figure: 'Next checks',
    at: ['suspects'],
    formula: 'What the check saves on average, over its minutes.',
    from: ['Stories', 'How surely the check finds each kind of cause'],
    source: 'Value of information (R. Howard, Information value theory, 1966).',
    limit: 'A check that the judge of power forbids is not proposed.',
  },
  {
    figure: 'Temperatures and settings',
    at: ['plan'],
    formula:
      'Heat flow through the board, layer by layer lumped to a sheet, stepped in time with the printed air and plate. The setting melts every joint of the part and keeps its neighbours coolest.',
    from: ['Board, copper, parts', 'Nozzle, air, preheater'],
    source: 'J-STD-020 (limits of bodies); J. Douglas, Alternating direction methods for three space variables (1962).',
    limit: 'The thermocouple at the joint counts, not the model.',
  },
  {
    figure: 'Order of steps',
    at: ['plan'],
    formula:
      'Of all orders the one that costs least in minutes and in harm to neighbours; beyond 12 parts the best that a search finds, with the gap that may be left.',
    from: ['The lift list', 'Heat of each pass', 'Heats so far'],
    source: 'M. Held and R. Karp, A dynamic programming approach to sequencing problems (1962).',
    limit: 'Harm to neighbours is a stated guess that ranks orders.',
  },
  {
    figure: 'Works in the end, worth it',
    at: ['plan', 'suspects', 'hand-back'],
    formula:
      'The share of all ways the work can end in which the card works; worth: that share of its value, less work, parts and risk.',
    from: ['Stories', 'Cures and losses', 'The price book'],
    source: 'The same sum as “what to do first”.',
    limit: 'An average over many such cards, not a promise for this one.',
  },
  {
    figure: 'At most so often, per run',
    at: ['proof'],
    formula: 'After n error-free runs: at most 1 − 0.05^(1/n) per run, at 95 %; about 3/n.',
    from: ['Error-free runs since the work'],
    source: 'J. Hanley and A. Lippman-Hand, If nothing goes wrong, is everything all right? (1983).',
    limit: 'Holds for such runs: a hotter card or another test may still fail.',
  },
]

/** Figures of one station, in the order of the list. */
export const workedOutAt = (station: Station): readonly WorkedOut[] =>
  workedOut.filter(({ at }) => at.includes(station))
