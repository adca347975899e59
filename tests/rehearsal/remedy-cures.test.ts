/** What each remedy cures of what is broken, where its figure is certain or never: the card works, or comes back. */
import { describe, expect, it } from 'vitest'
import { type Damage, type SimulatedCard, startJob, workKnowing } from '../../src/rehearsal/index.ts'
import { asKnown, damage, handCard, lanes, model, spillCause } from './hand-card.ts'
import { follow, planned, step, type Step } from './remedy-support.ts'

type Figures = Partial<SimulatedCard['figures']>
const WATER = [spillCause({ substance: 'water' })]
const METAL = [spillCause({ substance: 'gallium-indium-tin' })]
const onTrack = damage({ kind: 'spill', at: 'U2.A0', ref: undefined })
const under = damage({ kind: 'spill', at: 'U2/A0' })

/** How a job ends in which these steps are followed in turn. */
const endOf = (
  damages: readonly Damage[],
  plans: readonly (readonly Step[])[],
  figures: Figures = {},
  causes = WATER,
) =>
  follow(
    handCard({ damages, causes, figures }),
    plans.map((steps) => planned(steps)),
  ).score.proposals.end

describe('a wash', () => {
  it.each<[string, Damage, typeof WATER, Figures, string]>([
    ['takes liquid off a track', onTrack, WATER, {}, 'works'],
    ['leaves liquid under a part', under, WATER, {}, 'comes back'],
    ['takes it out from there with luck', under, WATER, { washCures: 1 }, 'works'],
    ['leaves metal on a track, however well it takes liquid', onTrack, METAL, { washCures: 1 }, 'comes back'],
    ['takes metal with luck of its own', under, METAL, { washCuresMetal: 1 }, 'works'],
    ['mends no die', damage({}), WATER, { washCures: 1, washCuresMetal: 1 }, 'comes back'],
  ])('%s', (_, broken, causes, figures, end) => {
    expect(endOf([broken], [[step('wash')]], figures, causes)).toBe(end)
  })
})

describe('taking up by hand', () => {
  it.each<[string, Damage, typeof WATER, Figures, string]>([
    ['takes metal off a track', onTrack, METAL, {}, 'works'],
    ['leaves metal under a part', under, METAL, {}, 'comes back'],
    ['takes it from there with luck', under, METAL, { takeUpCures: 1 }, 'works'],
    ['leaves liquid', onTrack, WATER, { takeUpCures: 1 }, 'comes back'],
    ['mends no die', damage({}), METAL, { takeUpCures: 1 }, 'comes back'],
  ])('%s', (_, broken, causes, figures, end) => {
    expect(endOf([broken], [[step('take-up')]], figures, causes)).toBe(end)
  })
})

describe('a part that came off and went back', () => {
  const back = (ref: string, action: 'reball' | 'replace') => [[step('lift', ref)], [step(action, ref)]]
  const joints = damage({ kind: 'joints', at: 'U2/A0' })
  const command = damage({ kind: 'command-joints', at: 'U2/CK' })
  const patch = damage({ kind: 'core-patch', at: 'U1', ref: 'U1' })
  const core = damage({ kind: 'core', at: 'U1', ref: 'U1' })
  const stage = damage({ kind: 'power-stage', at: 'S1', ref: 'S1' })

  it.each<[string, Damage, readonly (readonly Step[])[], Figures, string]>([
    ['joints by new balls', joints, back('U2', 'reball'), {}, 'works'],
    ['command joints by new balls', command, back('U2', 'reball'), {}, 'works'],
    ['joints under the core by new balls', patch, back('U1', 'reball'), {}, 'works'],
    ['joints by a new part as well as by new balls', joints, back('U2', 'replace'), { newPartGood: 0 }, 'works'],
    ['no joints where new balls do not hold', joints, back('U2', 'replace'), { reballCures: 0 }, 'comes back'],
    ['no command joints either', command, back('U2', 'reball'), { reballCures: 0 }, 'comes back'],
    ['no patch of the core either', patch, back('U1', 'reball'), { reballCures: 0 }, 'comes back'],
    ['no die by new balls', damage({}), back('U2', 'reball'), {}, 'comes back'],
    ['a die by a new part', damage({}), back('U2', 'replace'), {}, 'works'],
    ['no die by a new part that is bad', damage({}), back('U2', 'replace'), { newPartGood: 0 }, 'comes back'],
    ['no core by new balls', core, back('U1', 'reball'), {}, 'comes back'],
    ['a core by a new one', core, back('U1', 'replace'), {}, 'works'],
    ['a stage, which is always a new one', stage, back('S1', 'reball'), {}, 'works'],
    ['no stage by a bad one', stage, back('S1', 'reball'), { newPartGood: 0 }, 'comes back'],
    ['a die where the old one was lost in the lift', damage({}), back('U2', 'reball'), { liftLosesMemory: 1 }, 'works'],
    ['nothing of another part', damage({ at: 'U3', ref: 'U3' }), back('U2', 'replace'), {}, 'comes back'],
  ])('cures %s', (_, broken, plans, figures, end) => {
    expect(endOf([broken], plans, figures)).toBe(end)
  })

  it.each<[string, typeof WATER, 'reball' | 'replace', Figures, string]>([
    ['what lay under it', WATER, 'reball', { siteCuresMetal: 0 }, 'works'],
    ['nothing where the site stays dirty', WATER, 'reball', { siteCures: 0 }, 'comes back'],
    ['metal by its own figure', METAL, 'reball', { siteCures: 0 }, 'works'],
    ['no metal that stays in pads and balls', METAL, 'reball', { siteCuresMetal: 0 }, 'comes back'],
    ['metal like anything else where the part is new', METAL, 'replace', { siteCuresMetal: 0 }, 'works'],
  ])('is cleaned of %s', (_, causes, action, figures, end) => {
    expect(endOf([under], back('U2', action), figures, causes)).toBe(end)
  })

  it.each<[string, Damage, string]>([
    ['a cut track', damage({ kind: 'corridor', at: 'U2.A0', ref: undefined }), 'works'],
    ['what a tool hit', damage({ kind: 'slip', at: 'C1', ref: undefined }), 'works'],
    ['what lies on a track', onTrack, 'works'],
    ['no rail', damage({ kind: 'rail', at: 'rail VMEM', ref: undefined }), 'comes back'],
    ['no stage that a tool hit', damage({ kind: 'slip', at: 'S1', ref: 'S1' }), 'comes back'],
  ])('lets who works there mend %s in passing', (_, broken, end) => {
    expect(endOf([broken], back('U3', 'reball'))).toBe(end)
  })

  it('is spoiled by the work where luck has it so: of a memory one lane of its own, of the core any, of a stage none', () => {
    const spoiled = (ref: string, figures: Figures) => {
      let left: readonly Damage[] | undefined
      const withLeft: SimulatedCard['withLeft'] = (damages) => {
        left ??= damages
        return { outcomeOf: () => false, measure: () => [], test: () => lanes() }
      }
      const card = handCard({ figures, change: { withLeft } })
      const { end } = follow(card, [planned([step('lift', ref)]), planned([step('reball', ref)])]).score.proposals
      return { end, left: left ?? [] }
    }
    const memory = spoiled('U3', { refitSpoilsMemory: 1 })
    const lane = memory.left[0]?.lanes[0]?.lane ?? ''
    expect(model.laneById.get(lane)?.part).toBe('U3')
    const broken = { cause: -1, lines: [], lanes: [{ lane, bits: 255, reads: 'random', perRead: 1 }] }
    expect(memory).toEqual({ end: 'comes back', left: [{ ...broken, kind: 'joints', at: 'U3 refitted', ref: 'U3' }] })
    const ofCore = spoiled('U1', { refitSpoilsCore: 1 })
    expect(ofCore).toMatchObject({ end: 'comes back', left: [{ kind: 'core-patch', at: 'U1 refitted', ref: 'U1' }] })
    expect(model.laneById.has(ofCore.left[0]?.lanes[0]?.lane ?? '')).toBe(true)
    expect(spoiled('U1', { refitSpoilsMemory: 1 }).end).toBe('works')
    expect(spoiled('U3', { refitSpoilsCore: 1 }).end).toBe('works')
    expect(spoiled('S1', { refitSpoilsCore: 1, refitSpoilsMemory: 1 }).end).toBe('works')
  })

  it('of a core that is lost is the end, of anything else that is lost not', () => {
    const lost = (ref: string, figures: Figures) => endOf([], [[step('lift', ref)]], figures)
    expect(lost('U1', { liftLosesCore: 1 })).toBe('lost')
    expect(lost('U1', { liftLosesMemory: 1 })).toBe('works')
    expect(lost('U2', { liftLosesCore: 1, liftLosesMemory: 1 })).toBe('works')
    const { done } = follow(handCard({ figures: { liftLosesMemory: 1, liftLosesCore: 1 } }), [
      planned([step('lift', 'S1', 'U2', 'U3')]),
      planned([step('reball', 'S1', 'U2', 'U3')]),
    ]).score.proposals
    expect(done.slice(3, 6)).toEqual(['replace S1', 'replace U2', 'replace U3'])
  })
})

describe('going into a place', () => {
  const rail = damage({ kind: 'rail', at: 'rail VMEM', ref: undefined })
  const branch = damage({ kind: 'rail-branch', at: 'branch east of rail VMEM', ref: undefined })
  const track = damage({ kind: 'corridor', at: 'U2.A0', ref: undefined })
  const slip = damage({ kind: 'slip', at: 'C1', ref: undefined })

  it.each<[string, Damage, string, Figures, string]>([
    ['the rail that was named', rail, 'rail VMEM', {}, 'works'],
    ['a branch of it', branch, 'rail VMEM', {}, 'works'],
    ['the track of a lane', track, 'the track of U2.A0', {}, 'works'],
    ['what a tool hit', slip, 'what the slip s1 hit', {}, 'works'],
    ['nothing that hides in inner layers', rail, 'rail VMEM', { repairFinds: 0 }, 'comes back'],
    ['no other rail', rail, 'rail VCORE', {}, 'comes back'],
    ['no other track', track, 'the track of U2.A1', {}, 'comes back'],
    ['not what a tool hit, where a rail was meant', slip, 'rail VMEM', {}, 'comes back'],
    ['not what a tool hit, where a track was meant', slip, 'the track of U2.A0', {}, 'comes back'],
    ['no part, though it bears the name', damage({ at: 'U2' }), 'U2', {}, 'comes back'],
  ])('mends %s', (_, broken, name, figures, end) => {
    expect(endOf([broken], [[step('repair-around', name)]], figures)).toBe(end)
  })
})

describe('a look under a part that came off', () => {
  const areasAfter = (figures: Figures, wet: readonly string[]) => {
    const lift: SimulatedCard['lift'] = (refs) => refs.map((ref) => ({ ref, atFault: false, wet, kinds: [] }))
    const { asked } = follow(handCard({ figures, change: { lift } }), [planned([step('lift', 'U2')])])
    return asked.at(-1)?.known.areas.map(({ kind, id }) => `${kind} ${id}`)
  }

  it.each([
    ['sees what lies there', { seenUnder: 1 }, ['U2/A0', 'U2/B0'], ['film under-U2/A0', 'film under-U2/B0']],
    ['overlooks it', { seenUnder: 0, seenUnderClean: 1 }, ['U2/A0'], ['clean under-U2']],
    ['sees a clean field', { seenUnder: 1 }, [], ['clean under-U2']],
    // the first region of the package stands for what was taken for film
    ['takes flux for film', { seenUnder: 0, seenUnderClean: 1 }, [], ['film under-U2/A0']],
  ])('%s', (_, figures, wet, expected) => {
    expect(areasAfter(figures, wet)).toEqual(expected)
  })

  it('of the same part again takes the place of the mark that was there', () => {
    const twice = [[step('lift', 'U2')], [step('reball', 'U2')], [step('lift', 'U2')]].map((steps) => planned(steps))
    const { asked } = follow(handCard(), twice)
    expect(asked.at(-1)?.known.areas.map(({ id }) => id)).toEqual(['under-U2'])
    expect(asked.at(-1)?.bench).toMatchObject({ lifted: ['U2'], offNow: ['U2'] })
  })
})

it('a damage that shows in no lane and on no line is none to who knows', () => {
  const hidden = damage({ lanes: [] })
  const known = (damages: readonly Damage[]) => {
    const card = handCard({ damages })
    return workKnowing(startJob(card, asKnown(card))).done
  }
  expect(known([hidden])).toEqual([])
  expect(known([{ ...hidden, lines: [{ kind: 'stage', name: 'S1', severity: 1 }] }])).toEqual([
    'lift U2',
    'replace U2',
    'run',
  ])
})
