/** Figures of a spill and of a memory run: how far it got, what it reached, what was counted. */
import { decimals, say } from '../../../base/index.ts'
import { type SpillMark, pressedChance, pressingOf, substanceOf } from '../../../spill/index.ts'
import { amountWords, percent } from '../../stores/words.ts'
import { type EntriesOf, given } from '../entry.ts'
import type { FigureInput } from '../figure.ts'
import type { Known } from '../known.ts'

const SPREAD = say(
  'Bayes’ rule over equally spread places (H. Niederreiter, Random number generation and quasi-Monte Carlo methods, 1992).',
)

export const spillEntries: EntriesOf<'reach' | 'spill-extent' | 'spill-place' | 'pressed' | 'errors'> = {
  reach: {
    title: say('Chance that it was reached'),
    subject: ({ of }) => of,
    at: ['spill', 'suspects'],
    formula: say(
      'The share of all places, amounts and gaps that reach it, each by its weight. “With test results” weighs them by how well they explain what fails and passes. Of several spills: 1 − ∏(1 − chance).',
    ),
    from: [say('How sure the place is'), say('The memory run'), say('What was seen')],
    source: SPREAD,
    limit: say('Reached is not failed: what passes is left alone.'),
    inputs: ({ of }, known) =>
      spillsOf(known).flatMap((mark) => [
        ...spillInputs(known, mark),
        ...given(say('{id} alone', { id: mark.id }), of === '' ? undefined : reachedBy(known, mark, of)),
      ]),
  },
  'spill-extent': {
    title: say('Radius and rings of a spill'),
    subject: ({ mark }) => mark,
    at: ['spill'],
    formula: say(
      'Shortest way from the spot, with its own speed on bare mask and under each body; it reaches as far as its volume fills films, gaps and drops. Puddle height h = 2·lc·sin(θ/2), lc = √(γ/(ρ·g)).',
    ),
    from: [say('Place, amount, substance'), say('How the card hung'), say('Gaps under parts, dams')],
    source: say(
      'J. Sethian, A fast marching level set method (1996); P.-G. de Gennes and others, Capillarity and wetting phenomena (2003); E. Washburn, The dynamics of capillary flow (1921).',
    ),
    limit: say('Amount and gaps are spread over, so rings are likely reaches, not edges.'),
    inputs: ({ mark: id }, known) => {
      const mark = spillsOf(known).find((each) => each.id === id)
      const reach = known.assessment?.reaches.find((each) => each.mark === id)?.reach
      return [
        ...(mark === undefined ? [] : spillInputs(known, mark)),
        ...(reach === undefined
          ? []
          : [
              { name: say('effort radius'), value: `${decimals(reach.radiusMm, 1)} mm` },
              { name: say('area'), value: `${decimals(reach.areaMm2, 0)} mm²` },
              { name: say('ran off the board'), value: `${decimals(reach.unplacedMl, 2)} ml` },
            ]),
      ]
    },
  },
  'spill-place': {
    title: say('Where the spill was, and whether it is part of it'),
    at: ['suspects'],
    formula: say(
      'The places of all spills that explain the findings, each by its weight: their mean, their spread, and the weight of all sets of causes with a spill in them.',
    ),
    from: [say('How sure the place is'), say('Lanes that fail, pass or are untested'), say('What was seen')],
    source: SPREAD,
    limit: say('Two spills far apart have a mean where neither was.'),
    inputs: (_, known) => {
      const spill = known.assessment?.suspects.spill
      return [
        ...spillsOf(known).flatMap((mark) => spillInputs(known, mark)),
        ...given(say('spread after the tests'), spill === undefined ? undefined : `± ${decimals(spill.sdMm, 1)} mm`),
        ...given(say('part of the explanation'), spill === undefined ? undefined : percent(spill.probability)),
      ]
    },
  },
  pressed: {
    title: say('Whether a cooler pressed it further'),
    subject: ({ mark }) => mark,
    at: ['spill'],
    formula: say(
      'Where nobody knows, both are counted: a yes with this chance, pushed by a distance that is spread log-normally.',
    ),
    from: [say('Your answer'), say('What is usual for the substance')],
    source: say('Common practice, no source.'),
    limit: say('A look at the cooler’s print says more than this figure.'),
    inputs: ({ mark: id }, known) => {
      const mark = spillsOf(known).find((each) => each.id === id)
      const substance = mark === undefined ? undefined : substanceOf(mark.substance, known.present.substances)
      if (mark === undefined || substance === undefined) return []
      return [
        {
          name: say('your answer'),
          value: mark.pressed === 'unknown' ? say('not known') : mark.pressed === 'yes' ? say('yes') : say('no'),
        },
        { name: say('counted as a yes'), value: percent(pressedChance(mark, substance)) },
        { name: say('pushed about'), value: `${pressingOf(substance).pushMm} mm` },
      ]
    },
  },
  errors: {
    title: say('Errors per package, lane and bit'),
    at: ['memory-run', 'proof'],
    formula: say(
      'Each line’s address goes through the board’s address map to a channel; expected XOR actual gives the bits. Where a line names a part or lane, the name counts.',
    ),
    from: [say('The report'), say('The address map of the board'), say('What foreign names mean')],
    source: say(
      'Parity masks after P. Pessl and others, DRAMA: exploiting DRAM addressing for cross-CPU attacks (2016).',
    ),
    limit: say('What a report does not name is untested, not passed.'),
    inputs: (_, { tally }) =>
      tally === undefined
        ? [{ name: say('report'), value: say('none') }]
        : [
            { name: say('lines that could not be read'), value: String(tally.rows.unreadable) },
            { name: say('lines that fit no part'), value: String(tally.rows.unmapped) },
          ],
  },
}

const spillsOf = ({ present }: Known): SpillMark[] => present.marks.filter((mark) => mark.kind === 'spill')

function spillInputs({ present }: Known, mark: SpillMark): FigureInput[] {
  const substance = substanceOf(mark.substance, present.substances)?.name ?? mark.substance
  return [
    {
      name: mark.id,
      value: `${substance}, ${amountWords(mark.amount)} (× or ÷ ${decimals(Math.exp(mark.amountSdLog), 1)})`,
    },
    {
      name: say('place'),
      value: say('x {x}, y {y} mm, {side, select, top {top} other {bottom}}, sure to ± {sdMm} mm', {
        x: decimals(mark.at.x, 1),
        y: decimals(mark.at.y, 1),
        side: mark.side,
        sdMm: Number(mark.sdMm.toFixed(1)),
      }),
    },
  ]
}

function reachedBy({ assessment, model }: Known, mark: SpillMark, of: string): string | undefined {
  const reach = assessment?.reaches.find((each) => each.mark === mark.id)?.reach
  if (reach === undefined) return undefined
  const found = model.partByRef.has(of)
    ? reach.parts.find(({ ref }) => ref === of)
    : (reach.regions.find(({ id }) => id === of) ?? reach.corridors.find(({ lane }) => lane === of))
  return percent(found?.probability ?? 0)
}
