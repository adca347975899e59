/** What the last change to the case did, in words, and how the lift list moved with it. */
import { percent, say } from '../../base/index.ts'
import type { Case } from '../../case/index.ts'
import type { Mark } from '../../spill/index.ts'
import type { PartSuspicion } from '../../suspects/index.ts'
import { pointOfMark } from './derive.ts'

const names: Readonly<Record<Mark['kind'], readonly [name: string, made: string]>> = {
  spill: [say('Spill'), say('set')],
  residue: [say('Residue'), say('marked')],
  film: [say('Film'), say('marked')],
  corrosion: [say('Corrosion'), say('marked')],
  clean: [say('Clean spot'), say('marked')],
  slip: [say('Tool slip'), say('marked')],
  dam: [say('Dam'), say('drawn')],
  note: [say('Note'), say('set')],
}

const lists = [
  ['passes', say('Step noted.'), say('Last step taken back.')],
  ['ticks', say('Step noted.'), say('Last step taken back.')],
  ['checks', say('Check answered.'), say('Answer taken back.')],
  ['powerUps', say('Power-up logged.'), say('Power-up taken back.')],
  ['measurements', say('Reading noted.'), say('Reading taken back.')],
  ['reports', say('Report added.'), say('Report removed.')],
] as const

/** `Spill set.`; undefined for changes that the place where they are made shows by itself. */
export function actWords(before: Case, after: Case): string | undefined {
  for (const [list, more, fewer] of lists) {
    const by = after[list].length - before[list].length
    if (by !== 0) return by > 0 ? more : fewer
  }
  return before.marks === after.marks ? undefined : markWords(before.marks, after.marks)
}

function markWords(before: Case['marks'], after: Case['marks']): string | undefined {
  const has = (marks: Case['marks'], { id }: Mark): boolean => marks.some((mark) => mark.id === id)
  const made = after.find((mark) => !has(before, mark))
  if (made !== undefined) return `${names[made.kind].join(' ')}.`
  const gone = before.find((mark) => !has(after, mark))
  if (gone !== undefined) return say('{names} removed.', { names: names[gone.kind][0] })
  const changed = after.find((mark) => !before.includes(mark))
  const old = before.find((mark) => mark.id === changed?.id)
  if (changed === undefined || old === undefined) return undefined
  const [a, b] = [pointOfMark(old), pointOfMark(changed)]
  const moved = old.side !== changed.side || a.x !== b.x || a.y !== b.y
  const [name] = names[changed.kind]
  return moved ? say('{name} moved.', { name }) : say('{name} changed.', { name })
}

const TOLD = 2
const LEAST = 0.01

type Need = Pick<PartSuspicion, 'ref' | 'probability'>

/** `U1 48 to 95 %`: the parts whose need to be lifted moved most; empty where none moved by a percent. */
export function movedWords(before: readonly Need[], after: readonly Need[]): string {
  const was = new Map(before.map(({ ref, probability }) => [ref, probability]))
  return after
    .map(({ ref, probability }) => ({ ref, from: was.get(ref) ?? 0, to: probability }))
    .filter(({ from, to }) => Math.abs(to - from) >= LEAST && percent(from) !== percent(to))
    .toSorted((a, b) => Math.abs(b.to - b.from) - Math.abs(a.to - a.from))
    .slice(0, TOLD)
    .map(({ ref, from, to }) =>
      say('{ref} {from} to {to}', {
        ref,
        from: percent(from).replace(' %', ''),
        to: percent(to).replace(' ', '\u00a0'),
      }),
    )
    .join(', ')
}
