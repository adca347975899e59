/** Closed cases for tests of the shop's own record. Invented; nothing in them is a result. */
import bowline from '../../boards/bowline-8.json'
import { CASE_VERSION, type Case, caseSchema, startHistory } from '../../src/case/index.ts'
import type { CaseShelf } from '../../src/view/shelf/caseShelf.ts'

const refs = ['U11', 'U12', 'U13', 'U14', 'U15', 'U16', 'U17', 'U18']

/** One in three a bad package, one in three liquid, one in six a core, the rest a rail; what was said is right mostly. */
export function closedCase(n: number): Case {
  const ref = refs[n % refs.length] ?? 'U13'
  const kind = n % 6
  const right = n % 4 !== 3
  const was = kind < 2 ? 'bad' : 'under'
  const parts =
    kind === 5 ? [] : [{ ref: kind === 4 ? 'U1' : ref, was: kind === 4 ? 'joints' : was, minutes: 30 + (n % 20) }]
  const others = kind === 5 ? [{ what: 'rail', at: 'VMEM' }] : []
  const told =
    kind === 5
      ? { kind: 'rail', at: 'rail VMEM', refs: [] }
      : kind === 4
        ? { kind: 'core-patch', at: 'north of U1', refs: ['U1'] }
        : { kind: kind < 2 ? 'die' : 'spill', at: ref, refs: [ref] }
  const story = right ? told : { kind: 'corridor', at: 'U11.A0', refs: ['U11'] }
  const wronged = kind === 5 ? 'U1' : kind === 4 ? 'U1' : ref
  return caseSchema.parse({
    format: 'liftmap-case',
    version: CASE_VERSION,
    title: `closed ${n}`,
    card: `k${n}`,
    board: { inline: bowline },
    arrival: { on: '2026-02-01', owner: 'Ann Example' },
    passes: parts.flatMap((row) => [
      {
        action: 'lift',
        refs: [row.ref],
        outcome: 'done',
        found: [{ ref: row.ref, what: [was === 'under' ? 'wet' : 'clean'] }],
      },
      { action: 'refit', refs: [row.ref], outcome: 'done' },
    ]),
    checks: [{ check: 'press', at: ref, found: n % 3 === 0 }],
    handBack: {
      on: `2026-0${1 + (n % 3)}-1${n % 9}`,
      outcome: 'repaired',
      causes: { settled: 'all', parts, others },
    },
    foretold: {
      lift: kind === 5 ? [] : [wronged],
      stories: [
        { probability: 0.7, causes: [story] },
        { probability: 0.2, causes: [told] },
      ],
      parts: ['U1', ...refs].map((each, i) => ({
        ref: each,
        probability: each === wronged && kind !== 5 ? 0.62 + (n % 4) * 0.1 : ((i * 7 + n) % 10) / 40,
      })),
      failing: [`${ref}.A0`],
    },
  })
}

export async function keepClosedCases(shelf: CaseShelf, count: number): Promise<void> {
  for (let n = 0; n < count; n++) {
    const history = startHistory(closedCase(n))
    await shelf.save({ id: `closed-${n}`, history, boardName: 'bowline-8', basedOnRev: 0 })
  }
}
