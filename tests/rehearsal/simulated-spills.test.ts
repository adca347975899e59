/** What simulated spills are, how far they got and what they harmed, held to what must be so of every one. */
import { describe, expect, it } from 'vitest'
import { flowGround, type SimulatedCard, type TrueSpill } from '../../src/rehearsal/index.ts'
import { model } from './hand-card.ts'
import { drawn, shareOf } from './simulated-support.ts'

const spillOf = ({ truth }: SimulatedCard): TrueSpill => {
  const spill = truth.causes[0]?.spill
  if (spill === undefined) throw new Error('no spill')
  return spill
}
const METALS = ['gallium-indium', 'gallium-indium-tin']
const ALWAYS = {
  metalDamageMemory: 1,
  metalDamageCore: 1,
  compoundDamageMemory: 1,
  compoundDamageCore: 1,
  fluxDamageMemory: 1,
  fluxDamageCore: 1,
}
const pasty = drawn('pasty-spill', 60, { ...ALWAYS, metalDamageTrack: 0, compoundDamageTrack: 0, fluxDamageTrack: 0 })

describe('something pasty', () => {
  it('is metal, compound or flux; pressed on the core’s edge it lies on top, fresh flux is smeared nowhere', () => {
    const known = [...METALS, 'cooling-compound', 'flux-fresh', 'flux-dried']
    const seen = new Set(pasty.map((card) => spillOf(card).substance))
    expect([...seen].filter((substance) => !known.includes(substance))).toEqual([])
    expect(seen.size).toBeGreaterThanOrEqual(4)
    for (const card of pasty) {
      const { substance, side, smear, volumeMl, at } = spillOf(card)
      expect(card.truth.causes[0]).toMatchObject({ kind: 'pasty-spill', at: substance })
      if (!substance.startsWith('flux')) expect(side).toBe('top')
      expect(smear === undefined).toBe(substance === 'flux-fresh')
      if (smear === undefined) continue
      expect(smear.areaCm2).toBeGreaterThan(0)
      expect(smear.areaCm2).toBeLessThanOrEqual(25)
      // a film of 0.03 to 0.4 mm: a cm² of it is 0.003 to 0.04 ml
      expect(volumeMl / smear.areaCm2).toBeGreaterThanOrEqual(0.003 - 1e-9)
      expect(volumeMl / smear.areaCm2).toBeLessThanOrEqual(0.04 + 1e-9)
      if (substance === 'flux-dried') expect(smear.pushMm).toBe(0)
      if (smear.pushMm === 0) continue
      expect(smear.pushMm).toBeGreaterThanOrEqual(1)
      expect(smear.pushMm).toBeLessThan(8)
      // on the edge of the core, which reaches from (45.5, 25.5) to (74.5, 54.5)
      const toEdge = Math.min(...[at.x - 45.5, at.x - 74.5, at.y - 25.5, at.y - 54.5].map(Math.abs))
      expect(toEdge).toBeLessThan(1e-9)
    }
    const pressed = pasty.filter((card) => (spillOf(card).smear?.pushMm ?? 0) > 0)
    expect(pressed.length).toBeGreaterThan(20)
  })

  it('harms regions of which an eighth is wet, those under the core as well as under memory, and no power balls', () => {
    for (const card of pasty) {
      const { wet, regions } = spillOf(card)
      const { regionCells } = flowGround(model, wet.side)
      for (const [id, cells] of regionCells) {
        const share = cells.reduce((sum, cell) => sum + (wet.cells[cell] ?? 0), 0) / cells.length
        expect([id, regions.includes(id)]).toEqual([id, share >= 0.12])
      }
      for (const { kind, at, ref, lanes, lines } of card.truth.damages) {
        const region = model.regionById.get(at)
        expect([kind, ref, lines]).toEqual(['spill', region?.part, []])
        expect(region?.role).not.toBe('power')
        expect(regions).toContain(at)
        expect(lanes.map(({ lane }) => lane)).toEqual(region?.lanes)
      }
    }
    const parts = new Set(pasty.flatMap(({ truth }) => truth.needs))
    expect(parts.has('U1')).toBe(true)
  })

  it('may harm tracks alone, in the open, which no lift puts right', () => {
    const never = Object.fromEntries(Object.keys(ALWAYS).map((name) => [name, 0]))
    const cards = drawn('pasty-spill', 15, {
      ...never,
      metalDamageTrack: 1,
      compoundDamageTrack: 1,
      fluxDamageTrack: 1,
    })
    for (const card of cards) {
      const { wet } = spillOf(card)
      const reached = [...flowGround(model, wet.side).corridorCells].flatMap(([id, cells]) => {
        const share = cells.reduce((sum, cell) => sum + (wet.cells[cell] ?? 0), 0) / cells.length
        return share >= 0.12 ? [id] : []
      })
      expect(card.truth.needs).toEqual([])
      expect(card.truth.damages).toMatchObject(reached.map((at) => ({ kind: 'spill', at, ref: undefined, lines: [] })))
      expect(card.truth.spoiled).toEqual(reached)
    }
    expect(cards.some(({ truth }) => truth.damages.length > 0)).toBe(true)
  })
})

describe('something wet', () => {
  const cards = drawn('wet-spill', 12, { wetDamageMemory: 1, wetDamageCore: 1, upright: 0 })

  it('is coolant or water, up to 4 ml, anywhere on the board, mostly on top', () => {
    for (const card of cards) {
      const { substance, volumeMl, smear, at, downDeg } = spillOf(card)
      expect(['coolant-eg', 'coolant-pg', 'water']).toContain(substance)
      expect([smear, downDeg]).toEqual([undefined, undefined])
      expect(volumeMl > 0 && volumeMl <= 4).toBe(true)
      // 2 mm from the sides and the upper edge, 10 from the lower one
      expect(at.x >= 2 && at.x <= 118 && at.y >= 10 && at.y <= 78).toBe(true)
    }
    expect(shareOf(cards, (card) => spillOf(card).side === 'top')).toBeGreaterThan(0.6)
  })

  it('covers as much as it holds: 0.9 to 2.4 mm high on the board, less under bodies', () => {
    for (const card of cards) {
      const { wet, volumeMl } = spillOf(card)
      const area = wet.cells.reduce((sum, cell) => sum + cell, 0)
      // at least as much as 2.4 mm makes of it, at most as much as a gap of 0.25 mm
      expect(area).toBeGreaterThanOrEqual(Math.floor((volumeMl * 1000) / 2.4))
      expect(area).toBeLessThanOrEqual((volumeMl * 1000) / 0.25 + 1)
    }
  })
})
