/** Drafts for the hand-back, made from what the case already holds; the technician takes, changes or leaves them. */
import { joined, numberWords, say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import type { Exposure } from '../../heat/index.ts'
import { type PassEntry, type PassLog, type Plan, resolveShopSettings } from '../../plan/index.ts'
import { priceOf } from '../../suspects/index.ts'
import { substances as shippedSubstances, waysOfMoving } from '../../spill/index.ts'
import { loggedWork, type PricedCase } from '../quote/spent.ts'
import type { Case, HandBack } from '../schema.ts'
import { partKindWords } from '../kind-words.ts'

const founds = {
  clean: say('clean'),
  wet: say('wet'),
  metal: say('metal'),
  corroded: say('corroded'),
  'torn-pad': say('a torn pad'),
} as const

/** What the log says was done, a sentence a pass; empty without a log. */
export const doneDraft = (passes: PassLog): string => passes.map(passWords).join(' ')

function passWords({ action, refs, outcome, peakC, found, replaced, note }: PassEntry): string {
  const names = joined(refs)
  if (outcome === 'skipped')
    return say(
      '{names} {length, plural, one {was} other {were}} left as {length, plural, one {it is} other {they are}}{note}.',
      { names, length: refs.length, note: noteWords(note) },
    )
  const under = found.map(({ ref, what }) =>
    say('{what} under {ref}', { what: joined(what.map((each) => founds[each])), ref }),
  )
  const peak = peakC === undefined ? '' : say(' (peak {peakC} °C)', { peakC: numberWords(peakC) })
  const seen = under.length === 0 ? '' : `: ${under.join('; ')}`
  if (outcome === 'failed')
    return say('{action, select, lift {Lifting} other {Refitting}} {names} failed{peak}{seen}{note}.', {
      action,
      names,
      peak,
      seen,
      note: noteWords(note),
    })
  const did =
    action === 'lift'
      ? say('Lifted {names}', { names })
      : replaced
        ? say('Fitted new {names}', { names })
        : say('Refitted {names}', { names })
  return `${did}${peak}${seen}${noteWords(note)}.`
}

const noteWords = (note: string | undefined): string =>
  note === undefined || note === '' ? '' : `; ${note.replace(/[.\s]+$/, '')}`

/**
 * Minutes at the bench: those of log and ticks, as `loggedWork` has them, and of the steps that a plan has left.
 * @returns undefined where neither says anything
 */
export function minutesDraft(
  caseFile: Omit<PricedCase, 'handBack'>,
  model: BoardModel,
  exposures: readonly Pick<Exposure, 'target' | 'minutes'>[],
  plan: Pick<Plan, 'minutes'> | undefined,
): { readonly logged: number; readonly planned: number } | undefined {
  const planned = plan?.minutes ?? 0
  const noted = loggedWork(caseFile, model, exposures).minutes
  return noted + planned > 0 ? { logged: Math.round(noted), planned: Math.round(planned) } : undefined
}

/** New parts by the log, with the prices of the board file or the shop, and the materials that a plan still lists. */
export function partsDraft(
  caseFile: Pick<Case, 'passes' | 'shop'>,
  model: BoardModel,
  plan: Pick<Plan, 'materials'> | undefined,
): HandBack['usedParts'] {
  const shop = resolveShopSettings(caseFile.shop)
  const fresh = caseFile.passes.flatMap(({ action, outcome, replaced, refs }) =>
    action === 'refit' && outcome === 'done' && replaced ? refs : [],
  )
  const parts = fresh.flatMap((ref) => {
    const part = model.partByRef.get(ref)
    const price = part === undefined || !shop.ok ? 0 : priceOf(part, shop.value)
    return [
      {
        what: say('{kind} for {ref}', {
          kind: part === undefined ? say('part') : partKindWords[part.kind],
          ref,
        }),
        count: 1,
        price,
      },
    ]
  })
  const materials = (plan?.materials ?? [])
    .filter(({ cost }) => cost > 0)
    .map(({ what, amount, cost }) => ({
      what: `${what} (${amount})`.slice(0, 200),
      count: 1,
      price: Math.round(cost * 100) / 100,
    }))
  return [...parts, ...materials].slice(0, 500)
}

/** Sentences to the owner that fit this case, in plain words. Common practice, no source. */
export function adviceDrafts(caseFile: Pick<Case, 'arrival' | 'marks' | 'substances' | 'handBack'>): string[] {
  const { arrival, marks, substances, handBack } = caseFile
  const ids = new Set(marks.flatMap((mark) => (mark.kind === 'spill' ? [mark.substance] : [])))
  const spilled = [...substances, ...shippedSubstances].filter(({ id }) => ids.has(id))
  const works = handBack.outcome === 'repaired' || handBack.outcome === 'partly repaired'
  const metal = spilled.some(({ moves }) => waysOfMoving[moves].leavesMetal)
  const flux = arrival.accident === 'flux' || [...ids].some((id) => id.startsWith('flux'))
  return [
    ...(arrival.accident === 'spill' && !metal
      ? [
          say(
            'Have the leak found and mended before the card goes back in, and look at the hoses and joints once a month.',
          ),
          say('Mount the card so that a leak can’t run over it.'),
        ]
      : []),
    ...(metal
      ? [say('Do not use liquid metal on this card again. If it must be, use very little and put a barrier around it.')]
      : []),
    ...(flux ? [say('If the card is soldered on again, have the flux washed off at once.')] : []),
    ...(arrival.accident === 'slip'
      ? [say('Take the cooler off with care: a tool that slips can cut the board.')]
      : []),
    ...(works
      ? [
          say('Keep the card cool: clean the dust out twice a year, and see that the fans turn.'),
          say('Save your work often in the first weeks. If the picture breaks up, switch off and call us.'),
        ]
      : [
          say('Do not switch this card on.'),
          say('Parts of the card may still be of use. Please take the rest to where old electronics are collected.'),
        ]),
    ...(handBack.outcome === 'partly repaired' ? [say('Use it only for what you can do without.')] : []),
  ]
}
