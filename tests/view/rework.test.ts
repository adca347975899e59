/** The plan and its heat as the screen reads and words them. Invented figures; nothing in them is a result. */
import { minutesWords } from '../../src/view/stores/words.ts'
import { expect, onTestFinished, test } from 'vitest'
import bowline from '../../boards/bowline-8.json' with { type: 'json' }
import { speak } from '../../src/base/index.ts'
import { loadBoard } from '../../src/board/index.ts'
import { type HeatRun, type HeatSetting, recipeWords } from '../../src/heat/index.ts'
import { type PlanStep, stepTitle } from '../../src/plan/index.ts'
import { exposedInPasses, firstPasses } from '../../src/view/sheet/draw/passes.ts'
import {
  boardAt,
  curveRows,
  exposedInRun,
  hottestMoment,
  offBefore,
  shownCurves,
  sortExposed,
} from '../../src/view/stations/plan/heatFacts.ts'
import { cautionsByStep, headOf, headsInSight } from '../../src/view/stations/plan/planCautions.ts'
import { comparedWords, exposedWords, recipeOf, riskWords } from '../../src/view/stations/plan/planWords.ts'
import { coolPart } from '../support/part-heat.ts'

const setting: HeatSetting = {
  side: 'top',
  preheatC: 150,
  preheatS: 120,
  airC: 380,
  airS: 75,
  nozzle: { name: 'round 15', shape: 'round', sizeMm: 15 },
  at: { x: 100, y: 60 },
  shields: [{ ref: 'U12', kind: 'tape' }],
}

const run: HeatRun = {
  setting,
  grid: { originXMm: 0, originYMm: 0, cellMm: 1, columns: 2, rows: 1 },
  frames: [
    { timeS: 0, boardC: Float32Array.of(20, 20) },
    { timeS: 10, boardC: Float32Array.of(40, 120) },
  ],
  curves: [
    { ref: 'U12', timeS: Float32Array.of(0, 10, 20), jointC: Float32Array.of(20, 90, 70) },
    { ref: 'U13', timeS: Float32Array.of(0, 10, 20), jointC: Float32Array.of(20, 240, 100) },
  ],
  parts: [
    coolPart('U13', { jointPeakC: 240, melts: true }),
    coolPart('U12', { jointPeakC: 222, melts: true }),
    coolPart('U14', { bodyPeakC: 262, overLimit: true }),
    coolPart('U15', { bodyPeakC: 250 }),
    coolPart('U16', {}),
  ],
  energy: { inJ: 1, storedJ: 0.5, lostJ: 0.5 },
  notes: [],
}

test('a moment between two kept ones lies straight between them; outside it is the nearest', () => {
  expect([...(boardAt(run.frames, 5) ?? [])]).toEqual([30, 70])
  expect([...(boardAt(run.frames, 99) ?? [])]).toEqual([40, 120])
  expect(boardAt([], 0)).toBeUndefined()
})

test('neighbours that pass a limit come before those that melt, those before the near ones; the target is none', () => {
  expect(exposedInRun(run, ['U13']).map(({ ref, kind }) => [ref, kind])).toEqual([
    ['U14', 'over-limit'],
    ['U12', 'melts'],
    ['U15', 'near'],
  ])
})

test('a look at a run begins when its target is hottest, and shows the target’s curve first', () => {
  expect(hottestMoment(run, ['U13'])).toBe(10)
  expect(shownCurves(run, ['U13']).map(({ ref }) => ref)).toEqual(['U13', 'U12'])
})

test('the table of curves has the same times for all, straight between the run’s own', () => {
  const rows = curveRows(shownCurves(run, ['U13']))
  expect(rows[0]).toEqual({ timeS: 0, jointC: [20, 20] })
  expect(rows.find(({ timeS }) => timeS === 5)?.jointC).toEqual([130, 55])
  expect(rows.at(-1)).toEqual({ timeS: 20, jointC: [100, 70] })
})

test('packages are named each, small parts are summed up by what happens to them', () => {
  const board = loadBoard(bowline)
  if (!board.ok) throw new Error('the board of this test did not load')
  const small = board.value.parts.filter(({ kind }) => kind === 'capacitor').slice(0, 3)
  const exposed = [...small, ...board.value.memories.slice(0, 1)].map(({ ref }, i) => ({
    ref,
    kind: 'melts' as const,
    peakC: 220 + i,
  }))
  const sorted = sortExposed(board.value, exposed)
  expect(sorted.named.map(({ ref }) => ref)).toEqual([board.value.memories[0]?.ref])
  expect(sorted.small).toMatchObject([{ kind: 'melts', words: `3 capacitors, up to 222\u00a0°C` }])
})

test('what neighbours get too hot for is named with its temperature', () => {
  const near = { ref: 'U12', kind: 'near', peakC: 205.4, cracksFromC: 195 } as const
  const plain = (words: string): string => words.replaceAll('\u00a0', ' ')
  expect(plain(exposedWords(near))).toBe('U12: 205 °C, its joints may crack from 195 °C')
  expect(plain(exposedWords({ ...near, cracksFromC: undefined }))).toBe('U12: comes near the limit of its body, 205 °C')
  expect(plain(riskWords({ kind: 'near', count: 12, cracksFromC: 195 }))).toBe(
    '12 packages over 195 °C, where joints may crack',
  )
  expect(plain(riskWords({ kind: 'melts', count: 1, cracksFromC: undefined }))).toBe('1 package joints melt')
})

test('settings, times and steps read as a person says them', () => {
  expect(recipeWords(setting).replaceAll('\u00a0', ' ')).toBe(
    'Top side up. Plate under the whole board at 150 °C. U12 under tape. Air 380 °C; round nozzle 15 mm at x 100, y 60. Plate 0 s, air 120 s, off 195 s.',
  )
  expect([12.4, 60, 130].map(minutesWords).map((words) => words.replaceAll('\u00a0', ' '))).toEqual([
    '12 min',
    '1 h',
    '2 h 10 min',
  ])
  expect(stepTitle({ action: 'lift', refs: ['U13', 'U12'] })).toBe('Lift U13 and U12')
  expect(stepTitle({ action: 'wash', refs: ['U13', 'U12'] })).toBe('Wash the card')
})

test('a tried change tells the target, then the shielded neighbour, then what turned; small moves of others are left out', () => {
  const after = [
    coolPart('U13', { jointPeakC: 210, melts: false }),
    coolPart('U12', { jointPeakC: 221.5, melts: true }),
    coolPart('U14', { bodyPeakC: 255 }),
    coolPart('U16', { jointPeakC: 151 }),
  ]
  expect(comparedWords(run.parts, after, ['U13'], 'U12').map((words) => words.replaceAll('\u00a0', ' '))).toEqual([
    'U13: peak from 240 °C to 210 °C, it would not come off.',
    'U12: peak from 222 °C to 222 °C.',
    'U14: peak from 150 °C to 150 °C, back under its limit.',
  ])
})

test('every caution stands at every step that it belongs to: in full at the first, later by its head, with where it stands in full', () => {
  const fumes = 'Flux fumes cause asthma: extract them at the source.'
  const lead = 'Old joints may hold lead; wash your hands.'
  const steps: Pick<PlanStep, 'n' | 'cautions'>[] = [
    { n: 1, cautions: [] },
    { n: 2, cautions: [fumes] },
    { n: 3, cautions: [fumes, lead] },
    { n: 4, cautions: [lead, fumes] },
  ]
  expect(cautionsByStep(steps)).toEqual([
    { full: [], fullAt: [] },
    { full: [fumes], fullAt: [] },
    { full: [lead], fullAt: [2] },
    { full: [], fullAt: [2, 3] },
  ])
  expect([fumes, lead].map(headOf)).toEqual(['Flux fumes cause asthma', 'Old joints may hold lead'])
})

test('in sight stand the heads that one line takes, without what is in brackets', () => {
  const solvent = 'Solvent vapour catches fire (isopropyl alcohol from 12 °C up): air the room.'
  const said = [solvent, 'Unplug the card.', 'Static kills parts.', 'Follow your local rules.']
  expect(headsInSight(said)).toBe('Solvent vapour catches fire. Unplug the card.')
})

test('a recipe is told line by line, and apart from it how one knows that it is done', () => {
  expect(recipeOf('Wash it:\n1. Brush.\n2. Rinse.\nCheck: no slick feel.')).toEqual({
    lines: ['Wash it:', '1. Brush.', '2. Rinse.'],
    check: 'No slick feel.',
  })
  expect(recipeOf('Lift it.')).toEqual({ lines: ['Lift it.'], check: undefined })
})

test('in another language too: there the word for it is another one', () => {
  speak('de', { 'Check: {words}': 'Prüfen: {words}' })
  onTestFinished(() => speak('en', {}))
  expect(recipeOf('1. Bürsten.\nPrüfen: kein glitschiges Gefühl.')).toEqual({
    lines: ['1. Bürsten.'],
    check: 'Kein glitschiges Gefühl.',
  })
})

test('on the sheet a part has the number of its first pass, and a neighbour the worst that any pass does to it', () => {
  const pass = (n: number, refs: string[], lit: boolean, kind: 'near' | 'melts') => ({
    n,
    refs,
    side: 'top' as const,
    setting,
    lit,
    exposed: [{ ref: 'U20', kind, peakC: 200 }],
  })
  const passes = [
    pass(2, ['U13'], false, 'near'),
    pass(3, ['U12', 'U11'], false, 'melts'),
    pass(7, ['U12'], false, 'near'),
  ]
  expect(firstPasses(passes)).toEqual([
    { ref: 'U13', n: 2 },
    { ref: 'U12', n: 3 },
  ])
  expect(exposedInPasses(passes)).toEqual([{ ref: 'U20', kind: 'melts', passes: [2, 3, 7] }])
  const oneLit = [pass(2, ['U13'], true, 'near'), pass(3, ['U12'], false, 'melts')]
  expect(exposedInPasses(oneLit)).toEqual([{ ref: 'U20', kind: 'near', passes: [2] }])
})

test('a part is off from its lift to its refit, and only then', () => {
  const pass = (n: number, action: PlanStep['action'], ref: string): PlanStep => ({
    n,
    action,
    refs: [ref],
    minutes: 10,
    cost: 10,
    why: 'Made up.',
    setting: undefined,
    cautions: [],
    exposed: [],
  })
  const steps = [pass(1, 'lift', 'U1'), pass(2, 'lift', 'U2'), pass(3, 'refit', 'U2'), pass(4, 'refit', 'U1')]
  expect([1, 2, 3, 4, 5].map((n) => offBefore(steps, n))).toEqual([[], ['U1'], ['U1', 'U2'], ['U1'], []])
})
