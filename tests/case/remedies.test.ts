/** What is done to a part follows from what is wrong with it, and wet cards are washed before any oven (common practice, no source). */
import { expect, test } from 'vitest'
import { type Assessment, findBeyondLifts } from '../../src/case/index.ts'
import { plannedOf, reckoned } from '../support/reckoned-case.ts'

const assessed = (name: string, change: object = {}) => reckoned(`demo-data/${name}.case.json`, change)

async function stepsOf(name: string, change: object = {}) {
  const planned = plannedOf(await assessed(name, change))
  if (!planned.ok) throw new Error(JSON.stringify(planned.faults))
  return planned.value.answer.best.steps
}

const remedyOf = ({ suspects }: Assessment, ref: string) => suspects.parts.find((part) => part.ref === ref)?.remedy

test('a package whose cells are bad gets a new one in its place; the bad die does not go back on', async () => {
  const { assessment } = await assessed('tired-rows')
  expect(remedyOf(assessment, 'U14')).toMatchObject({ action: 'replace' })
  expect(remedyOf(assessment, 'U14')?.because).toMatch(/Replace it: it is bad itself \(9\d %\)/)
  const steps = await stepsOf('tired-rows')
  expect(steps.filter(({ action }) => action === 'reball')).toEqual([])
  expect(steps.find(({ action }) => action === 'replace')).toMatchObject({ refs: ['U14'] })
})

test('a core that liquid crept under is cleaned under and put back; nobody buys a new one for that', async () => {
  const { assessment } = await assessed('wept-fitting')
  expect(assessment.suspects.lift).toContain('U1')
  expect(remedyOf(assessment, 'U1')).toMatchObject({ action: 'reball' })
  for (const { lift, remedy } of assessment.suspects.parts)
    expect(['replace', 'reball'].includes(remedy.action)).toBe(lift)
})

test('a wet card is washed, then dried for as long as its substance needs, and not baked; once cleaned and dried neither is asked', async () => {
  const steps = await stepsOf('wept-fitting')
  const order = steps.map(({ action }) => action)
  expect(order.slice(0, 2)).toEqual(['wash', 'dry'])
  expect(order.indexOf('dry')).toBeLessThan(order.indexOf('lift'))
  expect(order).not.toContain('bake')
  expect(steps[1]?.why).toMatch(/80 °C for 2 h/)
  expect(steps[0]?.cautions.join(' ')).toMatch(/Solvent vapour catches fire/)
  const dried = await stepsOf('wept-fitting', { cleaned: { marks: [], note: 'washed, 4 h at 60 °C' } })
  expect(dried.map(({ action }) => action)).not.toContain('wash')
  expect(dried.map(({ action }) => action)).not.toContain('dry')
})

test('a limit of melts is one of packages: chip parts and coils have none (J-STD-020 classifies packages)', async () => {
  const card = await assessed('wept-fitting')
  const { model } = card
  const planned = plannedOf(card)
  if (!planned.ok) throw new Error('no plan')
  const { heatCounts } = planned.value.answer.best
  const limitsOf = (kinds: readonly string[]) =>
    new Set(
      heatCounts.flatMap(({ ref, limit }) => (kinds.includes(model.partByRef.get(ref)?.kind ?? '') ? [limit] : [])),
    )
  expect([...limitsOf(['capacitor', 'inductor'])]).toEqual([undefined])
  expect([...limitsOf(['memory', 'core'])]).toEqual([3])
})

test('where something is suspected that no lift mends, the plan says so first and promises no more than lifts can do', async () => {
  const card = await assessed('slipped-tool')
  const { assessment } = card
  const branch = assessment.suspects.stories
    .filter(({ causes }) => causes.some(({ kind }) => kind === 'rail' || kind === 'rail-branch'))
    .reduce((sum, { probability }) => sum + probability, 0)
  expect(branch).toBeGreaterThan(0.5)
  const planned = plannedOf(card)
  if (!planned.ok) throw new Error(JSON.stringify(planned.faults))
  const { answer } = planned.value
  expect(answer.worth.successProbability).toBeLessThanOrEqual(1 - branch)
  expect(findBeyondLifts(assessment.suspects)).toEqual([
    {
      what: expect.stringMatching(/^Rail VMEM is out of tolerance on its branch /),
      todo: expect.stringMatching(/^Before any heat measure there with the card off/),
    },
  ])
  expect(answer.best.steps.find(({ action }) => action === 'prepare')?.why).toMatch(/Lay out the materials listed/)
  expect(answer.best.steps.find(({ action }) => action === 'lift')?.why).toBe('It is the only part on the list.')
})

test('of a card on which only parts are suspected nothing of the kind is said', async () => {
  const { assessment } = await assessed('tired-rows')
  expect(findBeyondLifts(assessment.suspects)).toEqual([])
})

test('what is wrong with a part is split into its die, its joints, what lies under it, and nothing', async () => {
  const { suspects } = (await assessed('wept-fitting')).assessment
  for (const { probability, wrong } of suspects.parts) {
    const { die, joints, beneath, nothing } = wrong
    expect(die + joints + beneath + nothing).toBeCloseTo(1, 9)
    expect(1 - nothing).toBeCloseTo(probability, 9)
    for (const share of [die, joints, beneath, nothing]) expect(share).toBeGreaterThanOrEqual(0)
  }
  const core = suspects.parts.find(({ ref }) => ref === 'U1')?.wrong
  expect(core?.beneath).toBeGreaterThan(0.8)
  const bad = (await assessed('tired-rows')).assessment.suspects.parts.find(({ ref }) => ref === 'U14')?.wrong
  expect(bad?.die).toBeGreaterThan(0.8)
})
