/** Stories as they are told to people: those that are near alike are one, with what differs. */
import { asSentence, joined, sentenceCase, say } from '../../base/index.ts'
import type { CauseAt, Story } from '../result.ts'
import { nameOf } from './sentences.ts'

export interface ToldStory {
  readonly sentence: string
  /** Of all that it stands for, added up. */
  readonly probability: number
  /** How many stories it stands for. */
  readonly count: number
}

/** Above so much a story of one cause stands by itself. */
const OF_ITS_OWN = 0.05
const NAMED = 2

/**
 * @param stories as the sum ranked them, the likeliest first
 * @returns the same total in fewer lines, the likeliest first. Told together are stories that add one more fault to the
 * same earlier story, and unlikely ones of a single cause of the same kind
 */
export function toldStories(stories: readonly Story[]): ToldStory[] {
  const groups = new Map<string, Story[]>()
  stories.forEach((story, at) => {
    const key = keyOf(story, stories.slice(0, at)) ?? `own ${at}`
    groups.set(key, [...(groups.get(key) ?? []), story])
  })
  return [...groups].map(([key, told]) => toldAs(key, told, stories)).toSorted((a, b) => b.probability - a.probability)
}

function keyOf({ causes, probability }: Story, earlier: readonly Story[]): string | undefined {
  const base = earlier.findIndex((other) => other.causes.length > 0 && addedTo(other, causes) !== undefined)
  if (base >= 0) return `more ${base}`
  const [only] = causes
  return causes.length === 1 && only !== undefined && probability < OF_ITS_OWN ? `kind ${only.kind}` : undefined
}

/** The one cause that is there beside all of the other story's; undefined where it is not one. */
function addedTo(base: Story, causes: readonly CauseAt[]): CauseAt | undefined {
  if (causes.length !== base.causes.length + 1) return undefined
  const more = causes.filter((cause) => !base.causes.some((known) => isSame(known, cause)))
  return more.length === 1 ? more[0] : undefined
}

const isSame = (a: CauseAt, b: CauseAt): boolean => a.kind === b.kind && a.at === b.at

function toldAs(key: string, told: readonly Story[], all: readonly Story[]): ToldStory {
  const probability = told.reduce((sum, story) => sum + story.probability, 0)
  const [first] = told
  const base = key.startsWith('more ') ? all[Number(key.slice(5))] : undefined
  if (first === undefined || told.length === 1)
    return { sentence: first?.sentence ?? '', probability, count: told.length }
  const names = told.map(({ causes }) => {
    const cause = base === undefined ? causes[0] : addedTo(base, causes)
    return cause === undefined ? '' : nameOf(cause)
  })
  const same = base === all[0] ? say('The first') : base && sentenceCase(joined(base.causes.map(nameOf)))
  const start = same === undefined ? say('One of these is at fault') : say('{same}, and one more fault', { same })
  return { sentence: asSentence(`${start}: ${orOf(names)}`), probability, count: told.length }
}

function orOf(names: readonly string[]): string {
  if (names.length > NAMED)
    return say('{names} or one of {count} others', {
      names: names.slice(0, NAMED - 1).join(', '),
      count: names.length - NAMED + 1,
    })
  return say('{names} or {last}', { names: names.slice(0, -1).join(', '), last: names.at(-1) ?? '' })
}
