/** The figures of the record in plain words, and what its numbers can be trusted for. */
import { decimals, numberWords, say } from '../../base/index.ts'
import type { Figure, FigureSection, Judged, LearntFigure, Share } from '../../rehearsal/index.ts'
import { checkCatalogue } from '../../suspects/index.ts'
import { percent, percentOf, spacedKind } from '../stores/words.ts'

export const sectionWords: Readonly<Record<FigureSection, { readonly title: string; readonly about: string }>> = {
  prior: {
    title: say('How often each cause occurs'),
    about: say(
      'Of cards that came to this shop and were closed with their cause confirmed: how many of such places were the cause. Cards whose cause stayed unknown are left out, so that what is hard to find comes out too low.',
    ),
  },
  evidence: {
    title: say('How far inspection and meter are to be trusted'),
    about: say('What was seen before, against what was wrong.'),
  },
  risk: {
    title: say('Risk of damage in lifting'),
    about: say('Lifts by the log, against parts that the work harmed.'),
  },
  cost: { title: say('Minutes'), about: say('To lift, clean and refit one part, where they were noted.') },
  check: {
    title: say('What checks find'),
    about: say('An answer counts where one kind of cause alone was there to be found, or none.'),
  },
  cure: {
    title: say('What lasts'),
    about: say(
      'Of cards with one cause and one remedy whose owner was asked weeks later: how many still worked. The same fault back is a miss.',
    ),
  },
}

/** Name, and what is counted. */
const names: Readonly<Record<string, readonly [string, string]>> = {
  'prior.die': [say('a memory package is bad in itself'), say('packages')],
  'prior.joints': [say('joints under one lane of a memory package'), say('lanes')],
  'prior.command-joints': [say('joints under a package’s command field'), say('packages')],
  'prior.corridor': [say('the track of one lane'), say('tracks')],
  'prior.rail': [say('a rail'), say('rails')],
  'prior.rail-branch': [say('a branch of a rail'), say('branches')],
  'prior.power-stage': [say('a power stage'), say('stages')],
  'prior.core': [say('the core in itself'), say('cards')],
  'prior.core-patch': [say('joints under the core'), say('cards')],
  'prior.unreported-spill': [say('liquid that nobody reported'), say('cards')],
  'prior.slip': [say('a marked slip did harm'), say('slips')],
  'evidence.residueWhereReached': [say('residue is seen at a part that was reached'), say('looks')],
  'evidence.cleanOverlooksReached': [say('a part that was reached looks clean'), say('looks')],
  'evidence.residueElsewhere': [say('residue is seen where nothing lay beneath'), say('looks')],
  'evidence.railBadElsewhere': [say('a good rail measures bad'), say('readings')],
  'evidence.stageBadIfStage': [say('a bad stage measures unlike its siblings'), say('readings')],
  'evidence.stageBadIfRail': [say('a stage of a bad rail does'), say('readings')],
  'evidence.stageBadElsewhere': [say('a good stage does'), say('readings')],
  'risk.memoryDamage': [say('a memory package or its pads'), say('lifts')],
  'risk.coreDamage': [say('the core or its pads'), say('lifts')],
  'risk.otherDamage': [say('a smaller part or its pads'), say('lifts')],
  'cure.replaceDie': [say('a new package for a bad one'), say('cards')],
  'cure.reballJoints': [say('new balls for bad joints'), say('cards')],
  'cure.reballBeneath': [say('cleaning under a part, and new balls'), say('cards')],
  'cure.reballBeneathMetal': [say('the same where liquid metal lay'), say('cards')],
  'cure.replaceBeneath': [say('cleaning under a part, and a new one'), say('cards')],
  'cure.repairBeside': [say('putting right a rail, track or small part'), say('cards')],
  'cost.minutesPerMemoryLift': [say('a memory package'), say('lifts')],
  'cost.minutesPerCoreLift': [say('the core'), say('lifts')],
  'cost.minutesPerOtherLift': [say('a smaller part'), say('lifts')],
}

/** Checks and the causes that they find, by their short names. */
const checkNames: Readonly<Record<string, string>> = {
  'under-look': say('under look'),
  'dye-light': say('dye light'),
  'lane-diode': say('lane diode'),
  'lane-leak': say('lane leak'),
  'command-diode': say('command diode'),
  'corridor-ohms': say('corridor ohms'),
  press: say('press'),
  'warm-cool': say('warm cool'),
  'slower-clock': say('slower clock'),
  'rail-load': say('rail load'),
  'supply-at-part': say('supply at part'),
  'stage-warmth': say('stage warmth'),
  'x-ray': say('x ray'),
  'host-detects': say('host detects'),
}

const causeNames: Readonly<Record<string, string>> = {
  die: say('die'),
  joints: say('joints'),
  'command-joints': say('command joints'),
  corridor: say('corridor'),
  rail: say('rail'),
  'rail-branch': say('rail branch'),
  'power-stage': say('power stage'),
  core: say('core'),
  'core-patch': say('core patch'),
  spill: say('spill'),
  slip: say('slip'),
}

const questions = new Map(checkCatalogue.map(({ id, question }) => [id, question]))

export function figureName({ id, section, name, of }: Figure): string {
  if (section !== 'check') return names[id]?.[0] ?? spacedKind(name)
  const check = checkNames[name] ?? spacedKind(name)
  return of === 'falseAlarm'
    ? say('{check}: false alarms', { check })
    : say('{check} finds {cause}', { check, cause: causeNames[of ?? ''] ?? spacedKind(of ?? '') })
}

/** The whole question of a check, for who does not know it by its short name. */
export const figureTitle = ({ section, name }: Figure): string | undefined =>
  section === 'check' ? questions.get(name)?.replaceAll('{at}', say('it')) : undefined

/** `3 of 372 packages`, `4 lifts, 31 min on average`. */
export function seenWords({ figure, seen }: LearntFigure): string {
  if (figure.section === 'cost')
    return say('{tries, plural, one {# lift} other {# lifts}}, {hits} min on average', {
      tries: seen.tries,
      hits: decimals(seen.hits / seen.tries, 0),
    })
  const unit = figure.section === 'check' ? say('answers') : (names[figure.id]?.[1] ?? say('tries'))
  return say('{hits} of {tries} {unit}', {
    hits: numberWords(seen.hits),
    tries: numberWords(seen.tries),
    unit,
  })
}

/** A share of something rare keeps digits that say something. */
export function figureValue({ section }: Figure, value: number): string {
  if (section === 'cost') return `${decimals(value, 0)}\u00a0min`
  const parts = value * 100
  return parts > 0 && parts < 10 ? `${decimals(parts, parts < 1 ? 2 : 1)}\u00a0%` : percent(value)
}

export const intervalWords = ({ interval }: Pick<Judged, 'interval'>): string =>
  interval === undefined
    ? ''
    : say('{value} to {value2} %', { value: Math.round(interval.low * 100), value2: Math.round(interval.high * 100) })

export const shareWords = ({ hits, tries }: Share): string => percentOf(hits, tries)

/** Below so many cards a share says little; common practice, no source. */
export const FEW_CARDS = 30

export function trustWords(cards: number): string {
  if (cards === 0) return say('Nothing can be said yet.')
  if (cards < FEW_CARDS)
    return say(
      '{cards, plural, one {# card} other {# cards}} {cards, plural, one {is} other {are}} few: chance alone can move every share below by a lot. Beside each stands where the true share lies, with 95 % confidence, if cards were independent.',
      { cards },
    )
  return say('Beside each share stands where the true one lies, with 95 % confidence, if cards were independent.')
}

export const monthWords = (month: string | undefined): string => {
  if (month === undefined) return say('no day noted')
  const [year = '', number = ''] = month.split('-')
  return `${MONTHS[Number(number) - 1] ?? number} ${year}`
}

const MONTHS = [
  say('January'),
  say('February'),
  say('March'),
  say('April'),
  say('May'),
  say('June'),
  say('July'),
  say('August'),
  say('September'),
  say('October'),
  say('November'),
  say('December'),
]

/** Why a prior is lower than the share among cards that came in. */
export const chosenWords = (chance: number): string =>
  say(
    'The figures speak of cards as such. Cards come in because they failed: by the shipped figures {chance} of such cards have anything wrong, so that each card seen stands for {value}, and a share seen counts that much less.',
    { chance: percent(chance), value: decimals(1 / chance, 1) },
  )
