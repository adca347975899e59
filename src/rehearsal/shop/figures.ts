/** The figures that a shop's own cards can teach, by an id each, with what ships for them. */
import { checkCatalogue, learnableCures, shippedAssumptions } from '../../suspects/index.ts'

export type FigureSection = 'prior' | 'evidence' | 'risk' | 'cost' | 'check' | 'cure'

export interface Figure {
  /** `prior.die`, `risk.coreDamage`, `check.press.finds.joints`, `check.press.falseAlarm`, `cost.minutesPerCoreLift`. */
  readonly id: string
  readonly section: FigureSection
  /** The name within its section; of a check the check's id. */
  readonly name: string
  /** Of a check: what it finds, or `falseAlarm`. */
  readonly of?: string
  readonly shipped: number
}

const namesIn = (section: 'prior' | 'risk' | 'cost'): string[] => Object.keys(shippedAssumptions[section] ?? {})

/** Left out: `spill`, which is what was entered and no guess. */
const PRIORS = namesIn('prior').filter((name) => name !== 'spill')
/** Left out: what a closed card does not tell, of slips, branches and small parts. */
const EVIDENCE = [
  'residueWhereReached',
  'residueElsewhere',
  'cleanOverlooksReached',
  'railBadElsewhere',
  'stageBadIfStage',
  'stageBadIfRail',
  'stageBadElsewhere',
]
/** Priors that stand for one of several places on every card: what ships is then worth so many cards' places. */
const EVERY_CARD = new Set(PRIORS.filter((name) => name !== 'slip' && name !== 'unreported-spill'))

/**
 * Priors that the shipped figures give for cards as such, while the cards that come in were chosen by having failed: a share
 * among them counts so much less. A slip's stands for marks, not for cards.
 */
export const isOfAnyCard = ({ section, name }: Figure): boolean => section === 'prior' && name !== 'slip'

/** Priors that stand for one of several places on every card; those of slips and of unreported spills are none. */
export const isOfEveryCard = ({ section, name }: Figure): boolean => section === 'prior' && EVERY_CARD.has(name)

/** A name that the shipped assumptions do not have teaches nothing. */
const shippedFigures = (section: Exclude<FigureSection, 'check' | 'cure'>, names: readonly string[]): Figure[] =>
  names.flatMap((name) => {
    const shipped = shippedAssumptions[section]?.[name]?.value
    return typeof shipped === 'number' ? [{ id: `${section}.${name}`, section, name, shipped }] : []
  })

const checkFigures = checkCatalogue.flatMap((check): Figure[] => {
  if (check.evidence !== 'check') return []
  const shared = { section: 'check', name: check.id } as const
  const finds = Object.entries(check.finds).map(([of, shipped]) => ({
    ...shared,
    id: `check.${check.id}.finds.${of}`,
    of,
    shipped,
  }))
  return [...finds, { ...shared, id: `check.${check.id}.falseAlarm`, of: 'falseAlarm', shipped: check.falseAlarm }]
})

const cureFigures = Object.entries(learnableCures).map(
  ([name, shipped]): Figure => ({ id: `cure.${name}`, section: 'cure', name, shipped }),
)

/** Shares of tries. */
export const shareFigures: readonly Figure[] = [
  ...shippedFigures('prior', PRIORS),
  ...shippedFigures('evidence', EVIDENCE),
  ...shippedFigures('risk', namesIn('risk')),
  ...checkFigures,
  ...cureFigures,
]

/** Means of minutes. */
export const minuteFigures: readonly Figure[] = shippedFigures('cost', namesIn('cost'))

const shareIds = new Set(shareFigures.map(({ id }) => id))
const minuteIds = new Set(minuteFigures.map(({ id }) => id))

/** Whether an id is one of the figures that are learnt as a share of tries. */
export const isShareFigure = (id: string): boolean => shareIds.has(id)
/** Whether an id is one of the figures that are learnt as minutes. */
export const isMinuteFigure = (id: string): boolean => minuteIds.has(id)
