/** What stands in the form of a pattern, and the pattern that it makes: what is left alone follows the rest. */
import { type Fault, say } from '../../base/index.ts'
import {
  type BoardPattern,
  busLimits,
  isStack,
  outlineNamed,
  packageBits,
  packageCount,
  type PatternPackage,
  type PatternSupply,
  usualPattern,
  usualSupplies,
} from '../../board/index.ts'
import { faultWords } from '../stores/patternWords.ts'

export interface PatternDraft extends Omit<BoardPattern, 'supplies'> {
  /** As is usual for the rest until one of them is changed. */
  readonly supplies: readonly PatternSupply[] | undefined
}

export function firstDraft(): PatternDraft {
  return { ...usualPattern(), name: '', supplies: undefined }
}

/** @param freeName what the board is called where nothing is typed */
export const patternOf = (draft: PatternDraft, freeName: string): BoardPattern => ({
  ...draft,
  name: draft.name.trim() === '' ? freeName : draft.name.trim(),
  supplies: [...suppliesOf(draft)],
})

export const suppliesOf = (draft: PatternDraft): readonly PatternSupply[] =>
  draft.supplies ?? usualSupplies(draft.package, draft.busBits)

/** The next bus that whole packages make. */
export function withPackage(draft: PatternDraft, name: PatternPackage): PatternDraft {
  const bits = packageBits(outlineNamed(name))
  const { min, max } = busLimits(name)
  const busBits = Math.min(max, Math.max(min, Math.ceil(draft.busBits / bits) * bits))
  return { ...draft, package: name, busBits, ...(isStack(name) ? { sides: 'one' } : {}) }
}

/** Buses that whole packages make, each with how many that are. */
export function busOptions(draft: PatternDraft): { readonly value: string; readonly words: string }[] {
  const bits = packageBits(outlineNamed(draft.package))
  const { min, max } = busLimits(draft.package)
  const buses = Array.from({ length: (max - min) / bits + 1 }, (_, i) => min + i * bits)
  return buses.map((busBits) => {
    const count = packageCount({ ...draft, busBits, supplies: [] })
    const packages = (count?.front ?? 0) + (count?.back ?? 0)
    return {
      value: String(busBits),
      words: isStack(draft.package)
        ? say('{busBits} bit, {stacks, plural, one {# stack} other {# stacks}}', { busBits, stacks: packages })
        : say('{busBits} bit, {packages, plural, one {# package} other {# packages}}', { busBits, packages }),
    }
  })
}

/** The first of `my board`, `my board 2` and so on that no board has. */
export function freeBoardName(taken: ReadonlySet<string>): string {
  let name = say('my board')
  for (let n = 2; taken.has(name); n++) name = say('my board {n}', { n })
  return name
}

/** What is wrong with one field, in words; undefined where nothing is. */
export function faultAt(faults: readonly Fault[], path: string): string | undefined {
  const fault = faults.find((each) => each.path === path)
  return fault === undefined ? undefined : faultWords(fault)
}
