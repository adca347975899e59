/** How what was spilled comes off, in words and materials: from the cleaning section of each substance. */
import { clauseCase, joined, say, smallName } from '../../base/index.ts'
import { type Cleaning, dryLine, handLines, needsOven, type Substance, wetLines } from '../../spill/index.ts'
import type { Material } from '../result.ts'

interface Known {
  readonly name: string
  readonly cleaning: Cleaning
}

/** `liquid metal`, `coolant`: the name up to its first comma. */
export const plainName = ({ name }: Substance): string => smallName(name.split(',')[0] ?? name)

/** Those of which it is known how they come off; alike ones once: two alloys are taken up alike. */
function known(substances: readonly Substance[]): Known[] {
  const found = new Map<string, Known>()
  for (const substance of substances) {
    const { cleaning } = substance
    if (cleaning === undefined) continue
    const key = JSON.stringify(cleaning)
    if (!found.has(key)) found.set(key, { name: plainName(substance), cleaning })
  }
  return [...found.values()]
}

/** Taken up and wiped in one go: its rinses are done by swab on the same spots. */
const isHandWork = ({ cleaning }: Known): boolean => cleaning.takeUp !== undefined && cleaning.where === 'spots'

/** A line each, numbered, so that a hand that works finds its place again. */
const numbered = (lines: readonly string[]): string[] => lines.map((words, index) => `${index + 1}. ${words}`)

const afterCheck = (words: string): string => say('Check: {words}', { words })

const checkWords = ({ howKnown }: Cleaning): string => afterCheck(clauseCase(howKnown.words))

/** @returns what a line of a recipe says to check, without the word for it, in the language that is spoken; undefined where it says none */
export function checkIn(line: string): string | undefined {
  const word = afterCheck('')
  return line.startsWith(word) ? line.slice(word.length) : undefined
}

/** @returns what is done by hand before anything wet; undefined where nothing has to be taken up */
export function takeUpWords(substances: readonly Substance[]): string | undefined {
  const due = known(substances).filter(({ cleaning }) => cleaning.takeUp !== undefined)
  if (due.length === 0) return undefined
  return due.flatMap(takeUpLines).join('\n')
}

function takeUpLines(each: Known): string[] {
  const { name, cleaning } = each
  const first = say('First of all, take the {name} off by hand:', { name })
  if (!isHandWork(each)) return [first, ...numbered(handLines(cleaning))]
  const airs = needsOven(cleaning) ? [] : [dryLine(cleaning)]
  const scrap =
    cleaning.joints === undefined
      ? []
      : [say('Look at the cooler now: {words}', { words: clauseCase(cleaning.cooler.words) })]
  const steps = numbered([...handLines(cleaning), ...wetLines(cleaning)])
  return [first, ...steps, [...airs, checkWords(cleaning)].join(' '), ...scrap]
}

/** @returns how the card is washed; undefined where nothing wet is called for */
export function washWords(substances: readonly Substance[]): string | undefined {
  const washed = known(substances).filter((each) => !isHandWork(each))
  const sentences = [
    ...washed.flatMap(({ name, cleaning }) => [
      say('Cooler off, before any heat: wash off the {name}.', { name }),
      ...numbered(wetLines(cleaning)),
      say('{cleaning} An oven alone leaves {words}.', {
        cleaning: checkWords(cleaning),
        words: cleaning.leftByDrying.words,
      }),
    ]),
    ...substances
      .filter(({ cleaning }) => cleaning === undefined)
      .map((substance) =>
        say(
          'Nothing is known of how {substance} comes off: get its data sheet before anything wet goes onto the card, and clean by that.',
          { substance: plainName(substance) },
        ),
      ),
  ]
  return sentences.length === 0 ? undefined : sentences.join('\n')
}

export interface Drying {
  readonly ovenC: number
  readonly hours: number
}

/** The same time again for each so many kelvin below the temperature that it is stated for. Common practice, no source. */
const TWICE_PER_K = 20

/**
 * One drying after all of it: as warm as what bears least allows, and as long as the slowest needs at that temperature, longer
 * where it is colder than its own. Substances that only air off ask for none.
 * @param unknown for a substance of which nothing is known
 * @returns undefined where nothing goes into an oven
 */
export function dryingAfter(substances: readonly Substance[], unknown: Drying): Drying | undefined {
  const each = [
    ...known(substances)
      .filter(({ cleaning }) => needsOven(cleaning))
      .map(({ cleaning: { dryC, dryMinutes } }) => ({
        ovenC: dryC.value,
        mostC: dryC.high ?? dryC.value,
        hours: dryMinutes.value / 60,
      })),
    ...(substances.some(({ cleaning }) => cleaning === undefined) ? [{ ...unknown, mostC: unknown.ovenC }] : []),
  ]
  if (each.length === 0) return undefined
  const wanted = Math.max(...each.map(({ ovenC }) => ovenC))
  const ovenC = Math.min(wanted, ...each.map(({ mostC }) => mostC))
  const hours = each.map((one) => one.hours * 2 ** (Math.max(0, one.ovenC - ovenC) / TWICE_PER_K))
  return { ovenC, hours: Math.max(...hours) }
}

/** What is looked for on the cooler before it goes back on; empty where nothing was spilled. */
export function coolerWords(substances: readonly Substance[]): string {
  const words = [...new Set(known(substances).map(({ cleaning }) => cleaning.cooler.words))].join(' ')
  return words === '' ? '' : say('Before the cooler goes back on: {words}', { words: clauseCase(words) })
}

/** What is done at an open site, so that no spill goes back under the part; empty where nothing is known. */
export function siteWords(substances: readonly Substance[]): string {
  const ways = known(substances).map(({ name, cleaning }) => {
    const materials = cleaning.rinses.map(({ with: material }) => material.split(',')[0])
    const each = materials.filter((material, index) => material !== materials[index - 1])
    return say('the {name} with {each}', {
      name,
      each: each.reduce((first = '', next = '') => say('{first}, then {next}', { first, next })) ?? '',
    })
  })
  return ways.length === 0 ? '' : say('Clean off {ways}, and let it dry.', { ways: joined(ways) })
}

/** What has to lie on the table for it; what serves twice stands once. */
export function cleaningMaterials(substances: readonly Substance[]): Material[] {
  const lines = new Map<string, Material>()
  const add = (what: string, amount: string, why: string): void => {
    const before = lines.get(what)
    if (before === undefined) lines.set(what, { what, amount, why, cost: 0 })
    else if (!before.why.includes(why)) lines.set(what, { ...before, why: `${before.why} ${why}` })
  }
  for (const { name, cleaning } of known(substances)) {
    if (cleaning.takeUp !== undefined)
      add(cleaning.takeUp.with, say('to take it up'), say('Takes up the {name}, dry.', { name }))
    for (const [index, { with: what }] of cleaning.rinses.entries()) {
      const turn = index === 0 ? 'first' : index === cleaning.rinses.length - 1 ? 'last' : 'then'
      add(
        what,
        cleaning.where === 'card' ? say('to rinse') : say('to wipe'),
        say('{turn, select, first {First} last {Last} other {Then}} onto the {name}.', { turn, name }),
      )
    }
  }
  return [...lines.values()]
}
