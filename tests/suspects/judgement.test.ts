/** What the judge says on shipped boards about cards that a technician would know what to think of. */
import { describe, expect, it } from 'vitest'
import { seededRandom } from '../../src/base/index.ts'
import type { BoardModel } from '../../src/board/index.ts'
import { enteredOf, loadCase, openCase } from '../../src/case/index.ts'
import { readReport, type Signature } from '../../src/report/index.ts'
import { createReachEngine, type SlipMark, type SpillMark, spillMarkSchema, substances } from '../../src/spill/index.ts'
import { createJudge, type Findings, harmOf, type JudgeInput, type SuspectsResult } from '../../src/suspects/index.ts'
import { assessorFor } from '../support/kept-answers.ts'
import { shippedBoard } from '../support/read-board.ts'

const bowline = shippedBoard('bowline-8')
const hitch = shippedBoard('hitch-12')
const engines = new Map([bowline, hitch].map((model) => [model, createReachEngine(model, { cellMm: 1 })]))

const lanesWith = (model: BoardModel, failing: (lane: { id: string; part: string }) => boolean): Findings['lanes'] =>
  new Map(model.lanes.map((lane) => [lane.id, failing(lane) ? 'fail' : 'pass']))

function judged(model: BoardModel, more: Partial<Findings>, spills: readonly SpillMark[] = []): SuspectsResult {
  const engine = engines.get(model)
  if (engine === undefined) throw new Error('no engine')
  const findings: Findings = {
    lanes: lanesWith(model, () => false),
    signatures: new Map(),
    spills,
    areas: [],
    slips: [],
    rails: new Map(),
    ...more,
  }
  const reported = spills.flatMap((mark): JudgeInput['spills'][number][] => {
    const substance = substances.find(({ id }) => id === mark.substance)
    const hypotheses = substance === undefined ? undefined : engine.hypotheses(mark, [], substance, findings.areas)
    return hypotheses?.ok === true && substance !== undefined
      ? [{ mark, hypotheses: hypotheses.value, harm: harmOf(substance) }]
      : []
  })
  const unreported = [engine.unreportedHypotheses({ side: 'top', areas: findings.areas, dams: [] })]
  return createJudge(model).judge({ findings, spills: reported, unreported })
}

const SIGNATURE_OF_CELLS: Signature = {
  kind: 'cells',
  where: 'U14',
  numbers: [],
  stuck: undefined,
  sentence: 'Errors stay within two rows.',
}

const needs = (result: SuspectsResult, ref: string): number =>
  result.parts.find((part) => part.ref === ref)?.probability ?? Number.NaN

const total = (result: SuspectsResult, kinds: readonly string[]): number =>
  result.stories.reduce(
    (sum, { causes, probability }) => (causes.some(({ kind }) => kinds.includes(kind)) ? sum + probability : sum),
    0,
  )

const sumOf = ({ stories, remainder }: SuspectsResult): number =>
  stories.reduce((sum, { probability }) => sum + probability, remainder)

const coolantAt = (x: number, y: number): SpillMark =>
  spillMarkSchema.parse({
    kind: 'spill',
    id: 's',
    side: 'top',
    at: { x, y },
    sdMm: 4,
    substance: 'coolant-eg',
    amount: { volumeMl: 0.4 },
  })

describe('scattered errors', () => {
  it('of a hundred random addresses with one bit each are judged, and nobody gets a list of power stages', async () => {
    const random = seededRandom(77)
    const lines = Array.from({ length: 100 }, () => {
      const address = Math.floor(random.next() * 2 ** 31) * 4
      const expected = Math.floor(random.next() * 2 ** 32)
      const actual = (expected ^ (1 << Math.floor(random.next() * 32))) >>> 0
      return `0x${address.toString(16).padStart(10, '0')} 0x${expected.toString(16).padStart(8, '0')} 0x${actual.toString(16).padStart(8, '0')}`
    })
    async function* text(): AsyncIterable<Uint8Array> {
      yield new TextEncoder().encode(`address expected actual\n${lines.join('\n')}\n`)
    }
    const read = await readReport(text(), { model: bowline })
    if (!read.ok) throw new Error(JSON.stringify(read.faults))
    const { tally } = read.value
    const lanes = new Map(
      tally.parts.flatMap(({ channels }) =>
        channels.flatMap((channel) => channel.lanes.map(({ id, state }) => [id, state] as const)),
      ),
    )
    const signatures = new Map(tally.parts.map(({ ref, signature }) => [ref, signature]))
    const result = judged(bowline, { lanes, signatures })
    expect(sumOf(result)).toBeCloseTo(1, 9)
    for (const { probability } of [...result.stories, ...result.parts])
      expect(probability).toBeLessThanOrEqual(1 + 1e-9)
    expect(result.lift.filter((ref) => ref.startsWith('S')).length).toBeLessThanOrEqual(3)
  })
})

describe('rails with a severity', () => {
  const fails = lanesWith(bowline, ({ part }) => ['U12', 'U13', 'U14'].includes(part))

  it('a memory rail that reads as a short is in the likeliest story though some packages pass', () => {
    const result = judged(bowline, { lanes: fails, rails: new Map([['VMEM', 'low']]) })
    expect(total(result, ['rail', 'rail-branch', 'power-stage'])).toBeGreaterThan(0.5)
    expect(result.stories[0]?.causes.some(({ kind }) => ['rail', 'rail-branch', 'power-stage'].includes(kind))).toBe(
      true,
    )
  })

  it('one passing lane does not refute a rail when all others fail', () => {
    const lanes = lanesWith(bowline, ({ id }) => id !== 'U11.A0')
    const result = judged(bowline, { lanes, rails: new Map([['VMEM', 'low']]) })
    expect(total(result, ['rail', 'power-stage'])).toBeGreaterThan(0.6)
  })

  it('two rails at once do not outrank one', () => {
    const result = judged(bowline, { lanes: lanesWith(bowline, () => true) })
    const of = (count: number): number =>
      Math.max(
        0,
        ...result.stories
          .filter(({ causes }) => causes.length === count && causes.every(({ kind }) => kind === 'rail'))
          .map(({ probability }) => probability),
      )
    expect(of(1)).toBeGreaterThan(of(2))
  })
})

describe('an unreported spill', () => {
  it('does not reach .99 without a trace of one', () => {
    for (const failing of [['U14', 'U15', 'U16'], ['U11'], ['U14', 'U15'], ['U11', 'U22', 'U21']]) {
      const result = judged(hitch, { lanes: lanesWith(hitch, ({ part }) => failing.includes(part)) })
      expect(total(result, ['unreported-spill'])).toBeLessThan(0.5)
    }
  })

  it('counts for less when the owner says that nothing happened, and for more where residue is seen', () => {
    const lanes = lanesWith(hitch, ({ part }) => ['U14', 'U15'].includes(part))
    const areas: Findings['areas'] = [{ kind: 'residue', id: 'r', side: 'top', at: { x: 158, y: 74 }, radiusMm: 3 }]
    const of = (more: Partial<Findings>): number => total(judged(hitch, { lanes, ...more }), ['unreported-spill'])
    const seen = of({ areas })
    expect(seen).toBeGreaterThan(of({}))
    expect(of({ areas, told: 'no-accident' })).toBeLessThan(seen)
  })

  it('is nowhere on the sheet of a card that shows no sign of one', () => {
    expect(judged(hitch, { lanes: lanesWith(hitch, ({ part }) => part === 'U14') }).spill).toBeUndefined()
  })
})

describe('a marked slip', () => {
  it('across exactly the failing lanes is what did it, however many lanes pass elsewhere', () => {
    const part = 'U14'
    const corridors = hitch.corridors.filter(({ lane }) => hitch.laneById.get(lane)?.part === part)
    const middles = corridors.flatMap(({ path }) => path[Math.floor(path.length / 2)] ?? [])
    const at = {
      x: middles.reduce((sum, { x }) => sum + x, 0) / middles.length,
      y: middles.reduce((sum, { y }) => sum + y, 0) / middles.length,
    }
    const slip: SlipMark = { kind: 'slip', id: 'k', side: 'top', at, radiusMm: 4 }
    const result = judged(hitch, { lanes: lanesWith(hitch, (lane) => lane.part === part), slips: [slip] })
    expect(total(result, ['slip'])).toBeGreaterThan(0.5)
  })
})

describe('reached is not failed', () => {
  const at = { x: 158, y: 74 }

  it('a card on which every lane passes gets no lift list because liquid is there', () => {
    expect(judged(hitch, {}, [coolantAt(at.x, at.y)]).lift).toEqual([])
  })

  it('passing lanes make it less likely that a package was harmed', () => {
    const untested: Findings['lanes'] = new Map()
    const some = lanesWith(hitch, ({ part }) => part === 'U15')
    const withRest = judged(hitch, { lanes: some }, [coolantAt(at.x, at.y)])
    const alone = new Map([...some].filter(([, state]) => state === 'fail'))
    const without = judged(hitch, { lanes: new Map([...untested, ...alone]) }, [coolantAt(at.x, at.y)])
    expect(needs(withRest, 'U14')).toBeLessThanOrEqual(needs(without, 'U14'))
    expect(needs(withRest, 'U1')).toBeLessThan(needs(without, 'U1'))
  })

  it('says where the reported spill was, not where another might have been', () => {
    const { spill } = judged(hitch, { lanes: lanesWith(hitch, ({ part }) => part === 'U15') }, [coolantAt(at.x, at.y)])
    expect(spill?.sdMm).toBeLessThan(4.5)
  })
})

describe('a run after the work', () => {
  const lanes = lanesWith(hitch, ({ part }) => part === 'U14')

  it('that passes leaves nothing to lift', () => {
    const result = judged(hitch, { lanes, rounds: [{ lifted: ['U14'], lanes: lanesWith(hitch, () => false) }] })
    expect(result.lift).toEqual([])
    expect(needs(result, 'U1')).toBeLessThan(0.05)
  })

  it('that fails as before turns to what the lifted part shares with the core', () => {
    const before = judged(hitch, { lanes })
    const after = judged(hitch, { lanes, rounds: [{ lifted: ['U14'], lanes }] })
    expect(needs(after, 'U1')).toBeGreaterThan(needs(before, 'U1'))
    // a new part may be bad as well, and a site may not be clean: it does not count as certainly put right
    expect(needs(after, 'U14')).toBeLessThan(needs(before, 'U14') / 2)
    expect(needs(after, 'U14')).toBeGreaterThan(0.01)
  })

  it('with other lanes of the refitted part failing since points to the refit, and to lifting that part again', () => {
    const [first, ...others] = hitch.lanes.filter(({ part }) => part === 'U14').map(({ id }) => id)
    const before = lanesWith(hitch, ({ id }) => id === first)
    const after = lanesWith(hitch, ({ id }) => others.slice(0, 2).includes(id))
    const result = judged(hitch, { lanes: before, rounds: [{ lifted: ['U14'], replaced: ['U14'], lanes: after }] })
    expect(result.stories[0]?.causes.map(({ at }) => at)).toContain('U14 as refitted')
    expect(result.lift).toEqual(['U14'])
  })

  it('leaves a bad die as bad as it was where the same part went back on new balls', () => {
    const signatures: Findings['signatures'] = new Map([['U14', SIGNATURE_OF_CELLS]])
    const one = lanesWith(hitch, ({ part }) => part === 'U14')
    const reballed = judged(hitch, { lanes: one, signatures, rounds: [{ lifted: ['U14'], replaced: [], lanes: one }] })
    expect(reballed.lift).toEqual(['U14'])
    expect(reballed.parts.find(({ ref }) => ref === 'U14')?.remedy.action).toBe('replace')
    const replaced = judged(hitch, {
      lanes: one,
      signatures,
      rounds: [{ lifted: ['U14'], replaced: ['U14'], lanes: one }],
    })
    expect(total(replaced, ['die'])).toBeLessThan(total(reballed, ['die']))
  })

  it('with the core refitted and lanes failing in new places suspects the core more than on a card that was not touched', () => {
    const before = lanesWith(hitch, ({ part }) => part === 'U14')
    const after = lanesWith(hitch, ({ part }) => part === 'U17' || part === 'U18')
    const result = judged(hitch, { lanes: before, rounds: [{ lifted: ['U1'], replaced: [], lanes: after }] })
    expect(needs(result, 'U1')).toBeGreaterThan(needs(judged(hitch, { lanes: after }), 'U1'))
  })
})

/** Alloy pressed out at the core's edge, two neighbours failing: core and both come off (common practice, no source). */
describe('the trade’s own case', () => {
  const cases = import.meta.glob('../fixtures/trade/*.case.json', { eager: true, import: 'default' })

  it.each(Object.entries(cases))('%s lifts the core and both neighbours', async (name, json) => {
    const caseFile = loadCase(json)
    if (!caseFile.ok) throw new Error(`${name}: ${JSON.stringify(caseFile.faults)}`)
    const board = 'path' in caseFile.value.board ? (caseFile.value.board.path.split('/').at(-1) ?? '') : ''
    const model = shippedBoard(board.replace('.json', ''))
    const inline = { ...caseFile.value, board: { inline: model.description } }
    const opened = await openCase(inline, () => Promise.reject(new Error('no other file is named')))
    if (!opened.ok) throw new Error(JSON.stringify(opened.faults))
    const { suspects } = assessorFor(opened.value.model).assess(enteredOf(opened.value))
    const failing = new Set(
      opened.value.tally?.parts.flatMap(({ ref, channels }) =>
        channels.some((channel) => channel.lanes.some(({ state }) => state === 'fail')) ? [ref] : [],
      ),
    )
    expect([...suspects.lift].toSorted()).toEqual([model.core?.ref ?? '', ...failing].toSorted())
  })
})

describe('a check of the whole core', () => {
  it('is met once, however much of the core is bad: pressing that changed nothing does not clear a bad side', () => {
    const u1 = bowline.core
    const eastOf = (ref: string): boolean =>
      (bowline.partByRef.get(ref)?.placement.at.x ?? 0) > (u1?.placement.at.x ?? 0) + 20
    const lanes = lanesWith(bowline, ({ part }) => eastOf(part))
    expect([...lanes.values()].filter((state) => state === 'fail').length).toBeGreaterThan(6)
    const before = needs(judged(bowline, { lanes }), 'U1')
    const after = needs(judged(bowline, { lanes, checks: [{ check: 'press', at: 'U1', found: false }] }), 'U1')
    // whatever is bad at the core is found by pressing with at most 0.3 (the catalogue): Bayes' rule
    const missed = 1 - 0.3
    expect(before).toBeGreaterThan(0.5)
    expect(after).toBeGreaterThan((before * missed) / (before * missed + 1 - before) - 0.01)
  })
})
