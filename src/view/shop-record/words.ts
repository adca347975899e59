/** The figures of the record in plain words, and what its numbers can be trusted for. */
import { counted } from '../../base/index.ts'
import type { Figure, FigureSection, Judged, LearntFigure, Share } from '../../rehearsal/index.ts'
import { checkCatalogue } from '../../suspects/index.ts'
import { percent, percentOf, spacedKind } from '../stores/words.ts'

export const sectionWords: Readonly<Record<FigureSection, { readonly title: string; readonly about: string }>> = {
  prior: {
    title: 'How often each cause occurs',
    about:
      'Of cards that came to this shop and were closed with their cause confirmed: how many of such places were the cause. Cards whose cause stayed unknown are left out, so that what is hard to find comes out too low.',
  },
  evidence: {
    title: 'How far inspection and meter are to be trusted',
    about: 'What was seen before, against what was wrong.',
  },
  risk: { title: 'Risk of damage in lifting', about: 'Lifts by the log, against parts that the work harmed.' },
  cost: { title: 'Minutes', about: 'To lift, clean and refit one part, where they were noted.' },
  check: {
    title: 'What checks find',
    about: 'An answer counts where one kind of cause alone was there to be found, or none.',
  },
  cure: {
    title: 'What lasts',
    about:
      'Of cards with one cause and one remedy whose owner was asked weeks later: how many still worked. The same fault back is a miss.',
  },
}

/** Name, and what is counted. */
const names: Readonly<Record<string, readonly [string, string]>> = {
  'prior.die': ['a memory package is bad in itself', 'packages'],
  'prior.joints': ['joints under one lane of a memory package', 'lanes'],
  'prior.command-joints': ['joints under a package’s command field', 'packages'],
  'prior.corridor': ['the track of one lane', 'tracks'],
  'prior.rail': ['a rail', 'rails'],
  'prior.rail-branch': ['a branch of a rail', 'branches'],
  'prior.power-stage': ['a power stage', 'stages'],
  'prior.core': ['the core in itself', 'cards'],
  'prior.core-patch': ['joints under the core', 'cards'],
  'prior.unreported-spill': ['liquid that nobody reported', 'cards'],
  'prior.slip': ['a marked slip did harm', 'slips'],
  'evidence.residueWhereReached': ['residue is seen at a part that was reached', 'looks'],
  'evidence.cleanOverlooksReached': ['a part that was reached looks clean', 'looks'],
  'evidence.residueElsewhere': ['residue is seen where nothing lay beneath', 'looks'],
  'evidence.railBadElsewhere': ['a good rail measures bad', 'readings'],
  'evidence.stageBadIfStage': ['a bad stage measures unlike its siblings', 'readings'],
  'evidence.stageBadIfRail': ['a stage of a bad rail does', 'readings'],
  'evidence.stageBadElsewhere': ['a good stage does', 'readings'],
  'risk.memoryDamage': ['a memory package or its pads', 'lifts'],
  'risk.coreDamage': ['the core or its pads', 'lifts'],
  'risk.otherDamage': ['a smaller part or its pads', 'lifts'],
  'cure.replaceDie': ['a new package for a bad one', 'cards'],
  'cure.reballJoints': ['new balls for bad joints', 'cards'],
  'cure.reballBeneath': ['cleaning under a part, and new balls', 'cards'],
  'cure.reballBeneathMetal': ['the same where liquid metal lay', 'cards'],
  'cure.replaceBeneath': ['cleaning under a part, and a new one', 'cards'],
  'cure.repairBeside': ['putting right a rail, track or small part', 'cards'],
  'cost.minutesPerMemoryLift': ['a memory package', 'lifts'],
  'cost.minutesPerCoreLift': ['the core', 'lifts'],
  'cost.minutesPerOtherLift': ['a smaller part', 'lifts'],
}

const questions = new Map(checkCatalogue.map(({ id, question }) => [id, question]))

export function figureName({ id, section, name, of }: Figure): string {
  if (section !== 'check') return names[id]?.[0] ?? spacedKind(name)
  return of === 'falseAlarm' ? `${spacedKind(name)}: false alarms` : `${spacedKind(name)} finds ${spacedKind(of ?? '')}`
}

/** The whole question of a check, for who does not know it by its short name. */
export const figureTitle = ({ section, name }: Figure): string | undefined =>
  section === 'check' ? questions.get(name)?.replaceAll('{at}', 'it') : undefined

/** `3 of 372 packages`, `4 lifts, 31 min on average`. */
export function seenWords({ figure, seen }: LearntFigure): string {
  if (figure.section === 'cost')
    return `${counted(seen.tries, 'lift')}, ${(seen.hits / seen.tries).toFixed(0)}\u00a0min on average`
  const unit = figure.section === 'check' ? 'answers' : (names[figure.id]?.[1] ?? 'tries')
  return `${seen.hits.toLocaleString('en')} of ${seen.tries.toLocaleString('en')} ${unit}`
}

/** A share of something rare keeps digits that say something. */
export function figureValue({ section }: Figure, value: number): string {
  if (section === 'cost') return `${value.toFixed(0)}\u00a0min`
  const parts = value * 100
  return parts > 0 && parts < 10 ? `${parts.toFixed(parts < 1 ? 2 : 1)}\u00a0%` : percent(value)
}

export const intervalWords = ({ interval }: Pick<Judged, 'interval'>): string =>
  interval === undefined ? '' : `${Math.round(interval.low * 100)} to ${Math.round(interval.high * 100)}\u00a0%`

export const shareWords = ({ hits, tries }: Share): string => percentOf(hits, tries)

/** Below so many cards a share says little; common practice, no source. */
export const FEW_CARDS = 30

export function trustWords(cards: number): string {
  if (cards === 0) return 'Nothing can be said yet.'
  if (cards < FEW_CARDS)
    return `${counted(cards, 'card')} ${cards === 1 ? 'is' : 'are'} few: chance alone can move every share below by a lot. Beside each stands where the true share lies, with 95 % confidence, if cards were independent.`
  return 'Beside each share stands where the true one lies, with 95 % confidence, if cards were independent.'
}

export const monthWords = (month: string | undefined): string => {
  if (month === undefined) return 'no day noted'
  const [year = '', number = ''] = month.split('-')
  return `${MONTHS[Number(number) - 1] ?? number} ${year}`
}

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
]

/** Why a prior is lower than the share among cards that came in. */
export const chosenWords = (chance: number): string =>
  `The figures speak of cards as such. Cards come in because they failed: by the shipped figures ${percent(chance)} of such cards have anything wrong, so that each card seen stands for ${(1 / chance).toFixed(1)}, and a share seen counts that much less.`
