/** In the middle of the work the proposal goes on from there: what is off, what was put right, what is not tested yet. */
import { describe, expect, test } from 'vitest'
import { findingsOf, isUntested, overtakenBy, sortMarks } from '../../src/case/index.ts'
import { nextOf, type Reckoned, reckoned } from '../support/reckoned-case.ts'

const wept = 'demo-data/wept-fitting.case.json'
const first = { name: 'first run', path: 'wept-fitting.report.txt' }
const tick = (action: string) => ({ action, refs: ['board'], outcome: 'done', minutes: 10, afterPasses: 0 })
const dried = [tick('wash'), tick('dry')]
const lift = (ref: string, what: string) => ({
  action: 'lift',
  refs: [ref],
  outcome: 'done',
  found: [{ ref, what: [what] }],
})
const refit = (ref: string, replaced = false) => ({ action: 'refit', refs: [ref], outcome: 'done', replaced })

/** The same lanes fail as before, or those of these parts alone. */
async function failing(afterPasses: number, refs?: readonly string[]) {
  const { tally } = await reckoned(wept)
  const table = (tally?.parts ?? []).flatMap(({ ref, channels }) =>
    channels.flatMap(({ lanes }) =>
      lanes.flatMap(({ id, errors }) =>
        errors > 0 && (refs === undefined || refs.includes(ref))
          ? [{ part: ref, lane: id.replace(`${ref}.`, ''), errors }]
          : [],
      ),
    ),
  )
  return { name: `after ${afterPasses}`, run: 'retest', table, coversAll: true, afterPasses }
}

const proposed = (card: Reckoned): string[] =>
  nextOf(card).proposal.steps.map(({ action, refs }) => [action, ...refs].join(' '))
const chanceOf = ({ suspects }: Reckoned, ref: string): number =>
  suspects.parts.find((part) => part.ref === ref)?.probability ?? 0

describe('a card that was washed and dried', () => {
  test('is tested before anything is lifted', async () => {
    expect(proposed(await reckoned(wept, { ticks: dried }))).toEqual(['run-again'])
  })

  test('and fails as before is not washed again: the core comes off', async () => {
    const card = await reckoned(wept, { ticks: dried, reports: [first, await failing(0)] })
    expect(proposed(card)[0]).toBe('lift U1')
  })
})

test('metal that was taken up by hand is not asked for again', async () => {
  const pressed = 'tests/fixtures/trade/top-edge-pressed-upright.case.json'
  expect(proposed(await reckoned(pressed))[0]).toBe('take-up')
  expect(proposed(await reckoned(pressed, { ticks: [tick('take-up')] }))[0]).toMatch(/^lift /)
})

describe('with the core off', () => {
  const reports = async () => [first, await failing(0)]

  test('it is not lifted again: what lay under it is cleaned away and it goes back', async () => {
    const card = await reckoned(wept, { ticks: dried, passes: [lift('U1', 'wet')], reports: await reports() })
    expect(proposed(card)[0]).toBe('reball U1')
    expect(card.suspects.parts.find(({ ref }) => ref === 'U1')?.why[0]).toBe('It is off already.')
  })

  test('and nothing under it, the packages beside it are the likelier, and nothing is asked of the part in the tray', async () => {
    const clean = await reckoned(wept, { ticks: dried, passes: [lift('U1', 'clean')], reports: await reports() })
    const wet = await reckoned(wept, { ticks: dried, passes: [lift('U1', 'wet')], reports: await reports() })
    expect(chanceOf(clean, 'U1')).toBeLessThan(chanceOf(wet, 'U1'))
    for (const ref of ['U13', 'U14']) expect(chanceOf(clean, ref)).toBeGreaterThan(chanceOf(wet, ref))
    const { ranked, proposal } = nextOf(clean)
    for (const { refs, powered } of ranked.checks) {
      expect(refs).not.toContain('U1')
      expect(powered).toBe(false)
    }
    expect(proposal.others.map(({ name }) => name).join()).not.toMatch(/Lift U1\b|Wash/)
    expect(proposed(clean)).not.toContain('lift U1')
  })

  test('and back on, the run of the test comes first', async () => {
    const passes = [lift('U1', 'wet'), refit('U1')]
    const card = await reckoned(wept, { ticks: dried, passes, reports: asKept(await reports(), 2) })
    expect(proposed(card)).toEqual(['run-again'])
  })
})

/** As the application keeps it once the passes are logged. */
const asKept = (reports: readonly object[], passes: number) =>
  reports.map((report) =>
    'afterPasses' in report ? { ...report, overtaken: Number(report.afterPasses) < passes } : report,
  )

describe('a second round', () => {
  const passes = [lift('U1', 'wet'), refit('U1'), lift('U14', 'clean'), refit('U14', true)]

  test('keeps what the first one showed: the core went back on before the run that failed, U14 after it', async () => {
    const between = { ...(await failing(2, ['U14'])), overtaken: true }
    const card = await reckoned(wept, { ticks: dried, passes, reports: [first, between] })
    expect(card.earlier).toHaveLength(1)
    expect(proposed(card)).toEqual(['run-again'])
    // U13 passed in that run, and nobody has touched it
    expect(chanceOf(card, 'U13')).toBeLessThan(0.05)
  })

  test('that passes ends it', async () => {
    const between = { ...(await failing(2, ['U14'])), overtaken: true }
    const after = { name: 'at last', run: 'retest', table: [], coversAll: true, afterPasses: 4 }
    const card = await reckoned(wept, { ticks: dried, passes, reports: [first, between, after] })
    expect(proposed(card)).toEqual(['hand-back'])
    expect(card.suspects.lift).toEqual([])
  })

  test('that fails in U14 again, with a new die on clean joints, turns to the core: lifted again, and looked under before a new one is bought', async () => {
    const between = { ...(await failing(2, ['U14'])), overtaken: true }
    const again = await failing(4, ['U14'])
    const card = await reckoned(wept, { ticks: dried, passes, reports: [first, between, again] })
    expect(chanceOf(card, 'U14')).toBeLessThan(0.1)
    expect(card.suspects.parts.find(({ ref }) => ref === 'U1')?.wrong.die).toBeGreaterThan(0.1)
    expect(proposed(card)[0]).toBe('lift U1')
    expect(nextOf(card).proposal.steps[0]?.next).toMatch(/If it is clean there .*fit a new U1/)
  })
})

test('a run counts no more once work went on, and again once that is taken back', () => {
  const run = { id: 'r', name: 'after', run: 'retest', afterPasses: 2, coversAll: true } as const
  expect(overtakenBy([run], 3)[0]?.overtaken).toBe(true)
  expect(overtakenBy(overtakenBy([run], 3), 2)[0]?.overtaken).toBe(false)
  expect(isUntested({ reports: [{ ...run, overtaken: false }], passes: [], ticks: [] })).toBe(false)
})

test('reports of one run that work went on after are one run, and a wash counts from when it was ticked', async () => {
  const part = async (ref: string) => ({ ...(await failing(2, [ref])), name: `after 2, ${ref}`, overtaken: true })
  const passes = [lift('U1', 'wet'), refit('U1'), lift('U14', 'clean'), refit('U14', true)]
  const washedLate = [
    { ...tick('wash'), afterPasses: 3 },
    { ...tick('dry'), afterPasses: 3 },
  ]
  const { entered, model } = await reckoned(wept, {
    ticks: washedLate,
    passes,
    reports: [first, await part('U13'), await part('U14'), await failing(4, ['U14'])],
  })
  const { rounds = [] } = findingsOf(model, entered, sortMarks(entered.marks))
  expect(rounds.map(({ lifted, replaced, washed }) => ({ lifted, replaced, washed }))).toEqual([
    { lifted: ['U1'], replaced: [], washed: false },
    { lifted: ['U14'], replaced: ['U14'], washed: true },
  ])
  const failed = [...(rounds[0]?.lanes ?? [])]
    .filter(([, state]) => state === 'fail')
    .map(([lane]) => lane.split('.')[0])
  expect(new Set(failed)).toEqual(new Set(['U13', 'U14']))
})
