/** Of the owner's record, in plain words: what it cost, what to avoid, what to watch for. */
import { dayWords, minutesWords, money, numberWords, say } from '../../../base/index.ts'
import { isDeclined } from '../../quote/declined.ts'
import type { Case } from '../../schema.ts'
import { cautions, facts, list, paragraph, quote, section, table } from '../blocks.ts'
import type { RecordBlock, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { billOf, chargedOf } from '../money.ts'
import { substances as shippedSubstances, waysOfMoving } from '../../../spill/index.ts'

/**
 * Parts with their prices in the shop's currency, time at the bench and the price, which says so while it is not
 * settled.
 */
export function paySection(input: RecordInput): RecordSection {
  const { parts, partsSum, currency, minutes } = billOf(input)
  return section(
    say('What it cost'),
    ...(parts.length === 0
      ? [paragraph(say('We used no new parts.'))]
      : [
          table(
            say('Parts that we used'),
            [say('Part'), say('How many#'), say('Price#')],
            parts.map(({ what, count, sum }) => [what, numberWords(count), money(sum, currency)]),
            [say('Together'), '', money(partsSum, currency)],
          ),
        ]),
    facts(say('What you pay'), [
      [say('Time at the bench'), minutes === undefined ? say('not noted') : minutesWords(minutes)],
      ...agreedFacts(input.caseFile),
      [say('You pay'), priceWords(input.caseFile)],
      ...invoiceFacts(input.caseFile),
    ]),
  )
}

/** What is paid, or what is known of it: the range that was agreed or told. */
function priceWords(caseFile: Case): string {
  const { quote: told, handBack } = caseFile
  const { currency } = handBack
  const charged = chargedOf(caseFile)
  if (charged !== undefined) return money(charged, currency)
  if (told === undefined) return say('not settled yet')
  if (isDeclined(caseFile)) return say('nothing, as no fee was agreed')
  return say('about {low} to {high}', { low: money(told.low, currency), high: money(told.high, currency) })
}

/** In a sentence, once it is known. */
export function shortPrice(caseFile: Case): RecordBlock[] {
  const charged = chargedOf(caseFile)
  if (charged !== undefined)
    return [paragraph(say('You pay {charged}.', { charged: money(charged, caseFile.handBack.currency) }))]
  return caseFile.quote === undefined || isDeclined(caseFile)
    ? []
    : [paragraph(say('You pay {caseFile}.', { caseFile: priceWords(caseFile) }))]
}

function agreedFacts({ quote: told, handBack }: Case): [string, string][] {
  if (told?.answer !== 'agreed' || told.limit === undefined) return []
  return [[say('Agreed at most'), money(told.limit, handBack.currency)]]
}

function invoiceFacts({ invoice }: Case): [string, string][] {
  if (invoice === undefined) return []
  const { number, on, paidOn } = invoice
  return [
    [say('Invoice'), `${number}, ${dayWords(on)}`],
    [say('Paid'), paidOn === undefined ? say('not yet') : dayWords(paidOn)],
  ]
}

/** Advice and what to watch for; a card that was not repaired gets the caution to keep it off power. */
export function careSection(input: RecordInput): RecordSection {
  const { caseFile } = input
  const { outcome, advice } = caseFile.handBack
  return section(
    say('What to avoid, and what to watch for'),
    ...quote(say('From the technician'), advice),
    ...list(watchWords(input)),
    ...cautions(outcome === 'repaired' || outcome === 'partly repaired' ? [UNPLUG] : [KEEP_OFF]),
    paragraph(
      say('Local rules and what the makers say come before this page. If in doubt, ask somebody who is trained.'),
    ),
  )
}

const UNPLUG = say('Switch the computer off and pull its plug before the card goes in or comes out.')
const KEEP_OFF = say(
  'Please do not switch this card on. It can get hot, smoke or burn, and it can damage the computer.',
)

/** Common practice, no source. */
function watchWords({ caseFile }: RecordInput): string[] {
  const { outcome } = caseFile.handBack
  const works = outcome === 'repaired' || outcome === 'partly repaired'
  const spilled = new Set(caseFile.marks.flatMap((mark) => (mark.kind === 'spill' ? [mark.substance] : [])))
  const moves = [...caseFile.substances, ...shippedSubstances].flatMap((each) =>
    spilled.has(each.id) ? [each.moves] : [],
  )
  const metal = moves.some((way) => waysOfMoving[way].leavesMetal)
  return [
    ...(caseFile.arrival.accident === 'spill' && !metal && !/\bleak/i.test(caseFile.handBack.advice)
      ? [say('Find out where the leak came from, and have it mended first. A second leak can undo the work.')]
      : []),
    ...(metal
      ? [say('Small traces of liquid metal may still be on the card. Keep it away from bare skin and from aluminium.')]
      : []),
    ...(works
      ? [
          say(
            'If the picture breaks up, or coloured spots show, or the computer stops by itself: switch it off and call us.',
          ),
          metal
            ? say('If you smell smoke: pull the plug at once.')
            : say('If you smell smoke or see a leak: pull the plug at once.'),
        ]
      : []),
  ]
}
