/** Drafts for the hand-back say what the log and the plan hold, and nothing more. */
import { expect, test } from 'vitest'
import { adviceDrafts, type Case, doneDraft, minutesDraft, outcomes, partsDraft } from '../../src/case/index.ts'
import { openFull } from '../support/recordCase.ts'

const opened = await openFull()
const { passes } = opened.caseFile

test('the log is written pass by pass, failures and what was left included', () => {
  expect(doneDraft(passes)).toBe(
    'Lifted U2 (peak 236.5 °C): corroded under U2; came off clean. Fitted new U2 (peak 234.5 °C). U3 was left as it is; owner wants no more heat.',
  )
  expect(
    doneDraft([{ action: 'refit', refs: ['U2', 'U3'], outcome: 'failed', measured: [], found: [], replaced: false }]),
  ).toBe('Refitting U2 and U3 failed.')
  expect(doneDraft([])).toBe('')
})

// the price book's minutes of handling: 5 a memory package, 2 for each more under the same nozzle, no bond
test('minutes: each pass with its heat and handling, a group as one, skipped ones not, and what the plan has left', () => {
  const exposures = [
    { target: 'U2', minutes: 11 },
    { target: 'U3', minutes: 9 },
  ]
  const group = [
    { action: 'lift' as const, refs: ['U2', 'U3'], outcome: 'done' as const, measured: [], found: [], replaced: false },
  ]
  const draft = (of: Case['passes'], plan?: { minutes: number }) =>
    minutesDraft({ passes: of, ticks: [] }, opened.model, exposures, plan)
  // lift and refit of U2: twice 11 + 5
  expect(draft(passes)).toEqual({ logged: 32, planned: 0 })
  // the hotter of both, 11, and 5 + 2
  expect(draft(group, { minutes: 40 })).toEqual({ logged: 18, planned: 40 })
  expect(draft([])).toBeUndefined()
})

test('parts: the new one by the log at the board’s or shop’s price, then what the plan lists with a price', () => {
  const materials = [
    { what: 'gel flux', amount: '4 sites at a pass each', why: '', cost: 2.4 },
    { what: 'tape', amount: '1', why: '', cost: 0 },
  ]
  expect(partsDraft(opened.caseFile, opened.model, { materials })).toEqual([
    { what: 'memory for U2', count: 1, price: 15 },
    { what: 'gel flux (4 sites at a pass each)', count: 1, price: 2.4 },
  ])
  expect(partsDraft({ passes: [] }, opened.model, undefined)).toEqual([])
})

const withOutcome = (outcome: (typeof outcomes)[number]): Case => ({
  ...opened.caseFile,
  handBack: { ...opened.caseFile.handBack, outcome },
})

test('advice follows outcome and substance: what does not work is not to be switched on, a leak is to be mended', () => {
  for (const outcome of outcomes) {
    const off = adviceDrafts(withOutcome(outcome)).includes('Do not switch this card on.')
    expect(off).toBe(outcome === 'not repaired' || outcome === 'not worth repairing')
  }
  expect(adviceDrafts(withOutcome('repaired')).join(' ')).toContain('leak found and mended')
  const metal: Case = {
    ...withOutcome('repaired'),
    marks: opened.caseFile.marks.map((mark) =>
      mark.kind === 'spill' ? { ...mark, substance: 'gallium-indium' } : mark,
    ),
  }
  expect(adviceDrafts(metal).join(' ')).toContain('liquid metal')
  expect(adviceDrafts(metal).join(' ')).not.toContain('hoses')
})
