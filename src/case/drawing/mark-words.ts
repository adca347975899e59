/** The words that stand beside marks. */
import { drawnMm, numberWords, say, smallName } from '../../base/index.ts'
import { type Mark, shortMountingWords, type SpillMark, type Substance, substances } from '../../spill/index.ts'

export interface MarkWords {
  readonly title: string
  readonly detail?: string
}

const MAX_NOTE_CHARACTERS = 42

/**
 * How a spill's substance is called beside its mark: the plain word that its name begins with.
 * @param own the case's own substances, which count before those that ship
 * @returns a name for an id; the id itself where no such substance is known
 */
export const substanceNames =
  (own: readonly Substance[]): ((id: string) => string) =>
  (id) =>
    [...own, ...substances]
      .filter((substance) => substance.id === id)
      .map(({ name }) => smallName(name.split(',')[0] ?? name))[0] ?? id

/** @param substanceName the name for a substance's id */
export function wordsOfMark(mark: Mark, substanceName: (id: string) => string): MarkWords {
  switch (mark.kind) {
    case 'spill':
      return { title: substanceName(mark.substance), detail: spillDetail(mark) }
    case 'residue':
      return { title: say('residue seen') }
    case 'film':
      return { title: say('film seen') }
    case 'corrosion':
      return { title: say('corrosion') }
    case 'clean':
      return { title: say('clean') }
    case 'slip':
      return { title: say('tool slipped') }
    case 'dam':
      return { title: say('dam') }
    case 'note':
      return { title: shortened(mark.text) }
  }
}

function spillDetail(mark: SpillMark): string {
  const amount =
    'volumeMl' in mark.amount
      ? `${tidy(mark.amount.volumeMl)} ml`
      : say('smear of {smearCm2} cm²', { smearCm2: tidy(mark.amount.smearCm2) })
  return [`± ${drawnMm(mark.sdMm)} mm`, amount, ...layWords(mark)].join(' · ')
}

/** Nothing where nothing was said, and where the arrow shows it. */
function layWords(mark: SpillMark): string[] {
  if (mark.downDeg !== undefined) return []
  return mark.lay === undefined ? [] : [shortMountingWords[mark.lay === 'core-down' ? 'hanging' : 'flat']]
}

const tidy = (value: number): string => numberWords(Number(value.toPrecision(2)))

function shortened(text: string): string {
  const line = text.trim().replace(/\s+/g, ' ')
  return line.length > MAX_NOTE_CHARACTERS ? `${line.slice(0, MAX_NOTE_CHARACTERS - 1)}…` : line
}
