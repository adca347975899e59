/** What is told of a card in whole sentences: stories, why a part is suspected, what is done to it. A core U1, packages U2 east and U3 west of it, one rail from one stage. */
import { describe, expect, test } from 'vitest'
import { percent } from '../../src/base/index.ts'
import { createJudge, type Findings, type JudgeInput, type SuspectsResult } from '../../src/suspects/index.ts'
import { eastAndWest, findingsOf, rail, roundHypotheses, spillMark } from './small-board.ts'

const model = eastAndWest({ rails: [rail('VMEM', ['U2', 'U3'], ['S1'], [{ name: 'VMEM west', feeds: ['U3'] }])] })
const judge = createJudge(model)
type State = 'fail' | 'pass' | 'untested'
/** Lanes pass but for those named. */
const findings = (states: Readonly<Record<string, State>>, more: Partial<Findings> = {}): Findings =>
  findingsOf(new Map(model.lanes.map(({ id, part }) => [id, states[id] ?? states[part] ?? 'pass'])), more)
const judged = (
  states: Readonly<Record<string, State>>,
  more: Partial<Findings> = {},
  input: Partial<JudgeInput> = {},
): SuspectsResult => judge.judge({ findings: findings(states, more), spills: [], ...input })
const partOf = (result: SuspectsResult, ref: string) => {
  const part = result.parts.find((each) => each.ref === ref)
  if (part === undefined) throw new Error(`${ref} is not told of`)
  return part
}
const whyOf = (result: SuspectsResult, ref: string): readonly string[] => partOf(result, ref).why

describe('lanes of a package', () => {
  test.each<[string, Readonly<Record<string, State>>, string]>([
    ['one fails', { 'U2.A0': 'fail' }, 'Lane A0 fails, A1 passes.'],
    ['the other fails', { 'U2.A1': 'fail', 'U2.A0': 'untested' }, 'Lane A1 fails.'],
    ['all fail', { U2: 'fail' }, 'All 2 tested lanes fail.'],
    ['all pass', {}, 'All of its 2 lanes pass.'],
    ['some pass', { 'U2.A0': 'untested' }, '1 of its 2 lanes pass.'],
    ['none was tested', { U2: 'untested' }, 'No lane of U2 was tested.'],
  ])('%s', (_, states, sentence) => {
    expect(whyOf(judged({ ...states, 'U3.A0': 'fail' }), 'U2')).toContain(sentence)
  })
  test('how its errors look follows', () => {
    const sentence = 'Errors stay within two rows.'
    const signature = { kind: 'cells', where: 'U2', numbers: [], stuck: undefined, sentence } as const
    const why = whyOf(judged({ 'U2.A0': 'fail' }, { signatures: new Map([['U2', signature]]) }), 'U2')
    expect(why[why.indexOf('Lane A0 fails, A1 passes.') + 1]).toBe(sentence)
  })
})

describe('the core', () => {
  const HIDDEN = 'Under a core nobody can see; it is judged by what hangs on it.'
  test.each<[string, Readonly<Record<string, State>>, string]>([
    ['nothing fails', {}, 'No tested lane fails.'],
    ['one fails', { 'U2.A0': 'fail' }, 'Only U2 fails; a fault of the core seldom stays with one package.'],
    ['two fail', { U2: 'fail', 'U3.A1': 'fail' }, 'U2 and U3 fail together, and the core is what they share.'],
  ])('%s', (_, states, sentence) => {
    const why = whyOf(judged(states), 'U1')
    expect(why.slice(why.indexOf(sentence)).slice(0, 2)).toEqual([sentence, HIDDEN])
  })
})

describe('what was seen and measured', () => {
  const seen = (
    kind: 'residue' | 'film' | 'corrosion' | 'clean',
    x: number,
    y: number,
    side: 'top' | 'bottom' = 'top',
  ) =>
    whyOf(judged({ U2: 'fail' }, { areas: [{ kind, id: 'a', side, at: { x, y }, radiusMm: 1 }] }), 'U2').filter(
      (each) => / seen /.test(each),
    )
  // the body of U2 reaches from 44 to 56 mm; the mark's rim is 1 mm nearer than its middle
  test('at the body or so far from it', () => {
    expect(seen('residue', 90, 50)).toEqual(['Residue was seen at its body.'])
    expect(seen('film', 90, 64)).toEqual(['A film was seen 7.0 mm north of it.'])
    expect(seen('corrosion', 111, 50)).toEqual(['Corrosion was seen 14 mm east of it.'])
    expect(seen('clean', 90, 36)).toEqual(['The board was seen to be clean 7.0 mm south of it.'])
  })
  test('not beyond 15 mm, nor on the other side', () => {
    expect(seen('residue', 90, 71.9)).toEqual(['Residue was seen 15 mm north of it.'])
    expect(seen('residue', 90, 72.1)).toEqual([])
    expect(seen('residue', 90, 50, 'bottom')).toEqual([])
  })
  test.each([
    ['low', 'Measured cold, it read low.'],
    ['open', 'Measured cold, it read open.'],
    ['fine', 'Measured cold, it read like its siblings.'],
  ] as const)('a stage reads %s', (state, sentence) => {
    expect(whyOf(judged({ U2: 'fail' }, { stages: new Map([['S1', state]]) }), 'S1')).toContain(sentence)
  })
  test('a check that was made, by its last answer, at what it is about', () => {
    const pressed = (...answers: boolean[]): SuspectsResult =>
      judged({ U2: 'fail' }, { checks: answers.map((found) => ({ check: 'press', at: 'U1', found })) })
    expect(whyOf(pressed(true), 'U1')).toContain('Pressed gently, U1 changed its errors.')
    expect(whyOf(pressed(true, false), 'U1')).not.toContain('Pressed gently, U1 changed its errors.')
    expect(whyOf(pressed(true), 'U2').join(' ')).not.toContain('Pressed')
  })
})

describe('a reported spill', () => {
  const mark = spillMark('s1', { x: 76, y: 54 })
  // as likely a puddle of 25 mm, which reaches U1 and U2, as one of 2 mm, which reaches neither
  const discs = [25, 2].map((radiusMm) => ({ at: mark.at, radiusMm, weight: 1 }))
  const spilled = judged(
    { U2: 'fail' },
    { spills: [mark] },
    { spills: [{ mark, hypotheses: roundHypotheses(model, discs, []) }] },
  )
  test('reached a part with half a chance by its flow, and with more since the part fails', () => {
    const [sentence = ''] = partOf(spilled, 'U2').whyReached.filter((each) => each.startsWith('Chance'))
    // from the body of U2, whose edge is at 84 mm, 8 mm; from the core's, whose edge is at 60 mm, 16 mm
    expect(sentence).toMatch(
      /^Chance that the spill reported 8\.0 mm west of it reached it: 50 % from its flow only, (\d+) % with test results and what was seen\.$/,
    )
    expect(Number(/only, (\d+) %/.exec(sentence)?.[1])).toBeGreaterThan(50)
    expect(whyOf(spilled, 'U1').join(' ')).toContain(
      'Chance that the spill reported 16 mm east of it reached it underneath: 50 % from its flow only, ',
    )
    expect(partOf(spilled, 'U3').whyReached).toEqual([])
  })
  test('on top of a part is told by where it lies', () => {
    const on = spillMark('s1', { x: 90, y: 50 })
    const hypotheses = roundHypotheses(model, [{ at: on.at, radiusMm: 10, weight: 1 }], [])
    const [sentence] = partOf(
      judged({ U2: 'fail' }, { spills: [on] }, { spills: [{ mark: on, hypotheses }] }),
      'U2',
    ).whyReached
    expect(sentence).toMatch(/^Chance that the spill reported under U2 reached it: over 99\.9 % from its flow only, /)
  })
  test('did it, reaching what it more likely than not touches', () => {
    const story = spilled.stories.find(({ causes }) => causes.length === 1 && causes[0]?.kind === 'spill')
    expect(story?.sentence).toBe('The reported spill (east of U1) did it, reaching U1 and U2.')
    expect(story?.causes[0]?.refs).toEqual(['U1', 'U2'])
    const two = spilled.stories.find(({ causes }) => causes.map(({ kind }) => kind).join() === 'spill,die')
    expect(two?.sentence).toBe(
      '2 faults at once: the reported spill (east of U1) did it, reaching U1 and U2; and the die of U2 itself is bad.',
    )
  })
  test('something lies under what it reached', () => {
    const [core, memory] = [partOf(spilled, 'U1'), partOf(spilled, 'U2')]
    expect(memory.remedy).toEqual({
      action: 'replace',
      because: `Replace it rather than reball it: a new one costs about 15, and what lies under it may have got into its pads (${percent(memory.wrong.beneath)}).`,
    })
    expect(core.wrong.beneath).toBeGreaterThan(core.wrong.joints)
    expect(core.remedy).toEqual({
      action: 'reball',
      because: `Reball it and clean its site: something lies under it (${percent(core.wrong.beneath)}).`,
    })
  })
})

describe('stories', () => {
  const all = [
    judged({ 'U2.A0': 'fail' }),
    judged({ U3: 'fail' }),
    judged({ U2: 'fail', U3: 'fail' }, { stages: new Map([['S1', 'low']]) }),
  ]
  test.each([
    'Neighbouring joints under the east of U1 are open.',
    'The die of U2 itself is bad.',
    'Joints under U2/A0 are open.',
    'The controller of channel U2 in U1 is bad.',
    'The east side of U1 is bad.',
    'The core U1 is bad.',
    'The tracks of lane U2.A0 are cut or bridged.',
    'Joints of the command group U2/CA are open.',
    'Rail VMEM is out of tolerance on its branch VMEM west.',
    'Rail VMEM is out of tolerance.',
    'Power stage S1 is bad.',
    'Something that is not in the list of causes.',
  ])('%s', (sentence) => {
    expect(all.flatMap((result) => result.stories.map((story) => story.sentence))).toContain(sentence)
  })
  test('of a card that passes: nothing needs a cause', () => {
    expect(judged({}).stories[0]).toMatchObject({
      causes: [],
      sentence: 'No tested lane fails: nothing needs a cause.',
    })
  })
})

describe('money and remedies', () => {
  // lifts by the price book (work-by-hand.test.ts): U1 24.8 + 65.5 + 0.06 · 700 = 132.3; U2 17.8 + 54.66 + 0.02 · 15 = 72.76;
  // S1 16.8 + 43.375 + 4 = 64.175; a comeback 330
  const result = judged({ 'U2.A0': 'fail' })
  test.each([
    ['U1', 132.3],
    ['U2', 72.76],
    ['U3', 72.76],
    ['S1', 64.175],
  ])('lifting %s costs %d, leaving it a comeback and that lift as often as it is needed', (ref, money) => {
    const { probability, comesOff, costIfLeft, why } = partOf(result, ref)
    expect(costIfLeft).toBeCloseTo(probability * (330 + money), 6)
    const wash = probability - comesOff < 0.005 ? '' : ` (a wash may do: ${percent(probability - comesOff)})`
    expect(why.at(-1)).toBe(
      `It must come off with a chance of ${percent(comesOff)}${wash}: lifting costs about ${Math.round(money)}, leaving it about ${Math.round(costIfLeft)} on average.`,
    )
  })
  test('what is done follows from what is wrong, with its chance', () => {
    const { U1, U2, U3 } = Object.fromEntries(result.parts.map((part) => [part.ref, part]))
    expect(U1?.remedy.because).toBe(`Reball it: its joints are open or cracked (${percent(U1?.wrong.joints ?? 0)}).`)
    expect(U2?.remedy.because).toBe(
      `Replace it rather than reball it: a new one costs about 15, and it may be bad itself (${percent(U2?.wrong.die ?? 0)}).`,
    )
    expect(U2?.why[0]).toBe(U2?.remedy.because)
    expect(U3?.remedy).toEqual({
      action: 'leave',
      because: `Leave it on: it needs work with a chance of ${percent(U3?.probability ?? 0)}.`,
    })
    expect(U3?.why[0]).toBe('All of its 2 lanes pass.')
  })
  test('in the shop’s currency', () => {
    const inEuro = judged({ 'U2.A0': 'fail' }, {}, { currency: 'EUR' })
    expect(whyOf(inEuro, 'U1').at(-1)).toContain('lifting costs about 132\u00a0EUR, leaving it about ')
    expect(partOf(inEuro, 'U2').remedy.because).toContain('a new one costs about 15\u00a0EUR, and')
  })
  test('a part in the tray is said to be off first', () => {
    const bench = { washed: false, takenUp: false, untested: false, lifted: ['U2'], offNow: ['U2'] }
    const off = judged({ 'U2.A0': 'fail' }, {}, { bench })
    expect(whyOf(off, 'U2')[0]).toBe('It is off already.')
    expect(whyOf(off, 'U1')[0]).not.toBe('It is off already.')
  })
  test('reasons to lift it and what else would explain it, likeliest first, four at most', () => {
    const chances = (sentence: string): number[] =>
      [...sentence.matchAll(/(\d+) %/g)].map(([, chance]) => Number(chance))
    const why = whyOf(result, 'U2')
    const reasons = why.find((each) => each.startsWith('Reasons to lift it: ')) ?? ''
    const other = why.find((each) => each.startsWith('What else would explain its failing lanes: ')) ?? ''
    expect(reasons).toMatch(/the die of U2 \d+ %.*joints under U2\/A0 \d+ %/)
    for (const sentence of [reasons, other]) {
      expect(chances(sentence)).toEqual(chances(sentence).toSorted((a, b) => b - a))
      expect(chances(sentence).length).toBeLessThanOrEqual(4)
    }
    expect(chances(other)).toHaveLength(4)
    expect(other).not.toContain('the die of U2')
  })
})
