/** What is proposed first, on whole cases, is what the bench would do (common practice, no source). */
import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { z } from 'zod'
import { nextOf, reckoned } from '../support/reckoned-case.ts'

async function assessed(folder: string, name: string, change: object = {}) {
  const card = await reckoned(`${folder}/${name}`, change)
  return { ...card, ...nextOf(card) }
}

const actionsOf = ({ proposal }: Awaited<ReturnType<typeof assessed>>): string[] =>
  proposal.steps.map(({ action, refs }) => [action, ...refs].join(' '))

test('a coolant that crept under the core is washed out first, tested, and only then is the core lifted', async () => {
  const card = await assessed('demo-data', 'wept-fitting.case.json')
  expect(actionsOf(card).slice(0, 3)).toEqual(['wash', 'lift U1', 'reball U1'])
  expect(card.proposal.steps[0]?.next).toMatch(
    /^Test again\. If it passes \(\d+ %\), run it for hours, warm and from cold, then hand it back\./,
  )
  const [other] = card.proposal.others
  expect(other?.name).toBe('Lift U1 first and look under it')
  expect(other?.expectedCost).toBeGreaterThan(card.proposal.expectedCost)
})

test('a card that was washed and dried is not washed again', async () => {
  const card = await assessed('demo-data', 'wept-fitting.case.json', {
    cleaned: { marks: ['spill-1', 'residue-1', 'clean-1'], note: 'washed, blown out, dried' },
  })
  expect(actionsOf(card)[0]).toBe('lift U1')
})

test('what was marked after the wash is washed off too', async () => {
  const card = await assessed('demo-data', 'wept-fitting.case.json', {
    cleaned: { marks: ['residue-1', 'clean-1'], note: 'washed before the spill was found' },
  })
  expect(actionsOf(card)[0]).toBe('wash')
})

test('a bad die is lifted and a new one fitted, with one test after it', async () => {
  const card = await assessed('demo-data', 'tired-rows.case.json')
  expect(actionsOf(card)).toEqual(['lift U14', 'replace U14'])
  expect(card.proposal.works).toBeGreaterThan(0.9)
})

test('a supply that a tool hit is looked at before any part is heated', async () => {
  const card = await assessed('demo-data', 'slipped-tool.case.json')
  expect(actionsOf(card)[0]).toBe('repair-around rail VMEM')
})

test('a card that passes after the work goes back', async () => {
  expect(actionsOf(await assessed('demo-data', 'returned-card.case.json'))).toEqual(['hand-back'])
})

const trade = readdirSync('tests/fixtures/trade').filter((name) => name.endsWith('.case.json'))

test.each(trade)(
  'liquid metal pressed out at the core (%s): core and both neighbours come off, nothing is washed first',
  async (name) => {
    const card = await assessed('tests/fixtures/trade', name)
    const lifted = card.proposal.steps.flatMap(({ action, refs }) => (action === 'lift' ? refs : []))
    expect(new Set(lifted)).toEqual(new Set(card.suspects.lift))
    expect(lifted).toHaveLength(3)
    expect(card.proposal.steps.map(({ action }) => action)).not.toContain('wash')
  },
)

test('ways are compared by what they cost: the proposed one costs no more than any other', async () => {
  for (const name of ['wept-fitting', 'slipped-tool', 'tired-rows']) {
    const { proposal } = await assessed('demo-data', `${name}.case.json`)
    for (const other of proposal.others) expect(proposal.expectedCost).toBeLessThanOrEqual(other.expectedCost + 0.5)
    expect(proposal.others.at(-1)?.name).toBe('Send it back unrepaired')
  }
})

test('a card that passes after the work is said to work, whatever lay there before', async () => {
  const { suspects } = await assessed('demo-data', 'returned-card.case.json')
  expect(suspects.lift).toEqual([])
  expect(suspects.works).toBeGreaterThan(0.9)
})

test('however far it reached, a spill that explains what fails leaves little to causes that nobody knows', async () => {
  const text = readFileSync('demo-data/wept-fitting.case.json', 'utf8').replaceAll('coolant-pg', 'flux-dried')
  const { marks } = z.object({ marks: z.array(z.unknown()) }).parse(JSON.parse(text))
  const { proposal, suspects } = await assessed('demo-data', 'wept-fitting.case.json', { marks })
  expect(suspects.lift).toEqual(expect.arrayContaining(['U1', 'U13', 'U14']))
  const amounts = suspects.parts.flatMap(({ why }) => why.filter((sentence) => sentence.includes('lifting costs')))
  expect(amounts.length).toBeGreaterThan(2)
  for (const sentence of amounts)
    expect(sentence).toMatch(/lifting costs about [\d,]+.EUR, leaving it about [\d,]+.EUR/)
  expect(proposal.works).toBeGreaterThan(0.7)
  expect(suspects.works).toBeGreaterThan(0.5)
})
