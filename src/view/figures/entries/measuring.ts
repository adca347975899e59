/** Figures of measuring: a line's verdict and what it is held against, where a short sits, how a photo was fitted. */
import { decimals, plainly, say } from '../../../base/index.ts'
import type { Case } from '../../../case/index.ts'
import { lineName, sayReading } from '../../../measure/index.ts'
import { verdictsOf } from '../../stores/measuring.ts'
import { percent } from '../../stores/words.ts'
import { type EntriesOf, given } from '../entry.ts'

export const measuringEntries: EntriesOf<'verdict' | 'short' | 'photo-fit'> = {
  verdict: {
    title: say('In range, low, short'),
    subject: ({ line }) => lineName(line),
    at: ['cold-measuring', 'powered-measuring'],
    formula: say(
      'The reading, less the resistance of the leads, against the range of that rail. The range: the board’s own, else your good cards, else what is usual for that kind of rail and the packages on it.',
    ),
    from: [say('Readings'), say('Leads'), say('Ranges of the board, good cards')],
    source: say('Ranges by kind of rail: common practice, no source; each is listed in the measuring sheet.'),
    limit: say('A reading in range does not prove a rail good.'),
    inputs: ({ line, quantity, phase }, { model, present }) => {
      const found = verdictsOf(model, present, quantity, phase).find(
        ({ line: each }) =>
          each.line.kind === line.kind && each.line.name === line.name && each.line.point === line.point,
      )
      if (found === undefined) return []
      const { measurement, verdict } = found
      const { reference, usual, nominalV } = found.line
      return [
        {
          name: say('reading'),
          value: measurement === undefined ? say('none yet') : sayReading(measurement.reading, quantity),
        },
        ...given(say('leads'), quantity === 'ohms' ? leadsWords(present.leads) : undefined),
        { name: say('held against'), value: reference.words },
        ...given(say('from'), reference.span === '' ? undefined : reference.source),
        ...given(say('nominal'), nominalV === undefined ? undefined : `${plainly(nominalV)} V`),
        ...given(
          say('a short below'),
          usual === undefined || quantity !== 'ohms' ? undefined : `${usual.shortBelowOhm} Ω`,
        ),
        { name: say('verdict'), value: verdict.word },
      ]
    },
  },
  short: {
    title: say('Where a short sits'),
    subject: ({ ref, answer }) => ref ?? answer.rail,
    at: ['cold-measuring'],
    formula: say(
      'The rail’s copper as a sheet of resistors; each place is weighed by how well its voltage map fits the millivolts, within the meter’s error. A part’s share: the weight of the places under it.',
    ),
    from: [
      say('Injected current and where'),
      say('Millivolts read'),
      say('Copper of the rail, where the board has it'),
    ],
    source: say('Ohm’s and Kirchhoff’s laws; resistivity of copper after IEC 60028 (1925).'),
    limit: say('Without drawn copper a whole plane is assumed.'),
    inputs: ({ answer, ref }, { present }) => {
      const hunt = present.shorts.find(({ id }) => id === answer.hunt)
      const part = answer.parts.find((each) => each.ref === ref)
      return [
        ...given(say('current'), hunt === undefined ? undefined : `${plainly(hunt.currentA)} A`),
        ...given(
          say('injected at'),
          hunt === undefined ? undefined : `x ${decimals(hunt.sourceAt.x, 1)}, y ${decimals(hunt.sourceAt.y, 1)} mm`,
        ),
        { name: say('readings'), value: String(answer.readings.length) },
        ...given(say('meter’s error'), hunt === undefined ? undefined : `± ${plainly(hunt.noiseMillivolt)} mV`),
        {
          name: say('copper'),
          value: say(
            '{from, select, drawn {drawn} other {assumed}}, {sheetMilliohm} mΩ a square, × {scale} by the readings',
            {
              from: answer.copperFrom,
              sheetMilliohm: decimals(answer.sheetMilliohm, 2),
              scale: decimals(answer.scale, 2),
            },
          ),
        },
        { name: say('circle that holds 90 %'), value: `${decimals(answer.radius90Mm, 1)} mm` },
        ...given(say('share of the part'), part === undefined ? undefined : percent(part.share)),
        ...given(say('such a misfit by chance'), answer.fit === undefined ? undefined : percent(answer.fit.tail)),
      ]
    },
  },
  'photo-fit': {
    title: say('How straight the photo is'),
    at: ['inspection'],
    formula: say(
      'The board’s straight edges are looked for in the straightened photo; the figure is how far they lie off the edges of the board as it was said.',
    ),
    from: [say('The points that were clicked'), say('The size that is known'), say('Edges found in the photo')],
    source: say('R. Hartley and A. Zisserman, Multiple view geometry in computer vision (2003), homographies.'),
    limit: say('In the middle, and at tall parts, it can be further off.'),
    carried: ({ points, missMm }) => [
      { name: say('points clicked'), value: String(points) },
      { name: say('edges off by'), value: `${decimals(missMm, 2)} mm` },
    ],
  },
}

const leadsWords = (leads: Case['leads']): string =>
  leads === undefined || leads.kind !== 'two-wire' || leads.ohm === undefined
    ? say('not taken off')
    : say('{ohm} Ω taken off', { ohm: leads.ohm })
