/** Figures of the shop: quote, limit, bill, what closed cards taught, what a map was learnt from. */
import { decimals, money as exactMoney, plainly, say } from '../../../base/index.ts'
import { billOf, daysWords, limitState, spentSoFar } from '../../../case/index.ts'
import { minutesWords, percent, percentOf } from '../../stores/words.ts'
import { type EntriesOf, given } from '../entry.ts'
import type { Known } from '../known.ts'

const COUNTED = say('Counted in this shop’s closed cards, nothing taken from elsewhere.')

export const shopEntries: EntriesOf<
  'quote' | 'limit' | 'bill' | 'shop-share' | 'calibration' | 'shop-figure' | 'learnt-map'
> = {
  quote: {
    title: say('Range of the quote'),
    at: ['hand-back'],
    formula: say(
      'Every way in which the work can end, with its price: the 10th and 90th percentile and the mean, what is spent already and tax added. Days: minutes by the shop’s hours a day, days in the oven, days for parts.',
    ),
    from: [say('All ways it can end'), say('What is spent'), say('Tax, hours a day')],
    source: say('The same sum as “What to do first”; percentiles at 10 and 90 %: common practice, no source.'),
    limit: say('In one card of ten it takes more. A figure that you typed stands as typed.'),
    inputs: (_, known) => {
      const { quote } = known.present
      if (quote === undefined) return []
      const { low, high, expected, works, taxPct } = quote
      const endings = known.proposal?.endings?.length
      return [
        ...given(say('ways it can end, now'), endings === undefined ? undefined : String(endings)),
        { name: say('low, on average, high'), value: [low, expected, high].map(known.money).join(', ') },
        ...given(say('works after it'), works === undefined ? undefined : percent(works)),
        { name: say('days'), value: daysWords(quote) },
        { name: say('rate'), value: say('{rate} an hour', { rate: known.money(known.shop.money.hourlyRate) }) },
        { name: say('tax in it'), value: `${plainly(taxPct)} %` },
      ]
    },
  },
  limit: {
    title: say('Spent of what was agreed'),
    at: ['plan', 'hand-back'],
    formula: say(
      'Noted or logged minutes × rate, new parts and materials, tax added; the next step by the price book.',
    ),
    from: [say('Log and ticks'), say('Minutes noted'), say('The price book')],
    source: say('Prices: common practice, no source, yours to change.'),
    limit: say('Work that nobody noted is not in it.'),
    inputs: (_, known) => {
      const spent = spentSoFar(known.present, known.model)
      const state = limitState(known.present.quote, spent.money)
      return [
        { name: say('minutes'), value: minutesWords(spent.minutes) },
        { name: say('work'), value: known.money(spent.labour) },
        { name: say('parts and materials'), value: known.money(spent.parts) },
        ...given(say('tax'), taxWords(known)),
        ...given(say('agreed up to'), state === undefined ? undefined : known.money(state.limit)),
      ]
    },
  },
  bill: {
    title: say('What it adds up to'),
    at: ['hand-back'],
    formula: say('Parts: count × price. Labour: minutes noted × rate. Added up in whole hundredths.'),
    from: [say('Parts used'), say('Minutes noted'), say('Rate')],
    source: say('Your own prices; the rate is that of the price book.'),
    limit: say('It bills what is noted, not what was done.'),
    inputs: (_, { present }) => {
      const { partsSum, labour, hourlyRate, minutes, sum, currency } = billOf({ caseFile: present })
      const exact = (amount: number): string => exactMoney(amount, currency)
      return [
        ...present.handBack.usedParts.map(({ what, count, price }) => ({
          name: what,
          value: `${count} × ${exact(price)}`,
        })),
        { name: say('parts'), value: exact(partsSum) },
        ...given(
          say('time'),
          minutes === undefined
            ? undefined
            : say('{minutes} at {hourlyRate} an hour', {
                minutes: minutesWords(minutes),
                hourlyRate: exact(hourlyRate),
              }),
        ),
        ...given(say('labour'), labour === undefined ? undefined : exact(labour)),
        { name: say('together'), value: exact(sum) },
      ]
    },
  },
  'shop-share': {
    title: say('How often it was so'),
    subject: ({ words }) => words,
    at: ['hand-back'],
    formula: say('Hits over tries; the range holds the true share with 95 % confidence, if cards were independent.'),
    from: [say('Closed cards whose cause is confirmed')],
    source: say(
      '{COUNTED} Range: E. Wilson, Probable inference, the law of succession, and statistical inference (1927).',
      { COUNTED },
    ),
    limit: say('A few cards move a share a lot; what stays unknown is left out.'),
    carried: ({ hits, tries }) => [
      { name: say('counted'), value: say('{hits} of {tries}', { hits, tries }) },
      { name: say('share'), value: percentOf(hits, tries) },
    ],
  },
  calibration: {
    title: say('What was said against what was found'),
    at: ['hand-back'],
    formula: say(
      'Parts are sorted by the chance that was said; in each bin the mean that was said is held against the share that was so. Their differences, weighed by the parts in the bin, are the mean error.',
    ),
    from: [say('What was said when the list was acted on'), say('What was confirmed at hand-back')],
    source: say('M. Naeini and others, Obtaining well calibrated probabilities using Bayesian binning (2015).'),
    limit: say('Few parts in a bin make it jump by chance alone.'),
    carried: ({ parts, error }) => [
      { name: say('parts'), value: String(parts) },
      { name: say('mean error'), value: `${decimals(error * 100, 1)} %` },
    ],
  },
  'shop-figure': {
    title: say('A figure of the shop’s own record'),
    subject: ({ name }) => name,
    at: ['suspects'],
    formula: say(
      'Mean of a Beta distribution: (shipped × weight + hits) over (weight + tries). Minutes: the mean of both, weighed alike.',
    ),
    from: [say('What ships'), say('How much it weighs'), say('What closed cards showed')],
    source: say(
      'A. Gelman and others, Bayesian data analysis (2013), conjugate priors. Weights: common practice, no source.',
    ),
    limit: say('Cards come in because they failed; the share among them is brought back to cards as such.'),
    carried: ({ shipped, seen, weight }) => [
      { name: say('ships'), value: shipped },
      { name: say('it weighs as much as'), value: weight },
      { name: say('seen'), value: seen },
    ],
  },
  'learnt-map': {
    title: say('A learnt address map'),
    at: ['memory-run'],
    formula: say(
      'Masks whose parity is the same in every row of one label; a modulus where channels are no power of two. Bits that no row varies stay open.',
    ),
    from: [say('Addresses with the label each belongs to')],
    source: say(
      'P. Pessl and others, DRAMA: exploiting DRAM addressing for cross-CPU attacks (2016); GF(2) elimination.',
    ),
    limit: say('Rows that never differ in a bit say nothing of it.'),
    carried: ({ rows, fits }) => [
      { name: say('labelled addresses'), value: String(rows) },
      { name: say('lie where the map says'), value: String(fits) },
    ],
  },
}

const taxWords = ({ present }: Known): string | undefined =>
  present.quote === undefined || present.quote.taxPct === 0 ? undefined : `${plainly(present.quote.taxPct)} %`
