/** Substances: what ships is complete and says where it is from; what is missing or wrong is named. */
import { describe, expect, test } from 'vitest'
import { cautionsFor, findSubstance, parseSubstance, substances } from '../../src/spill/index.ts'
import { faultsIn, substanceOf } from '../support/board-fixture.ts'

describe('the shipped substances', () => {
  test('cover alloys, coolants, water, flux and paste, each way of moving at least once', () => {
    const ids = substances.map(({ id }) => id)
    expect(ids).toEqual(
      expect.arrayContaining([
        'gallium-indium',
        'gallium-indium-tin',
        'coolant-eg',
        'coolant-pg',
        'water',
        'flux-fresh',
        'flux-dried',
        'cooling-compound',
      ]),
    )
    expect(new Set(ids).size).toBe(ids.length)
    expect(new Set(substances.map(({ moves }) => moves))).toEqual(new Set(['wets', 'pinned', 'crust']))
  })

  test('give no gallium alloy a contact angle: none is a material constant', () => {
    // Source: Langmuir 2021, 10.1021/acs.langmuir.1c01173: static angles of oxide-skinned alloys say nothing.
    for (const id of ['gallium-indium', 'gallium-indium-tin']) {
      expect(substanceOf(id)).toMatchObject({ moves: 'pinned' })
      expect(substanceOf(id).contactAngleMaskDeg).toBeUndefined()
    }
  })

  test.each(substances)('$id comes with cautions that end by deferring to local rules', (substance) => {
    const cautions = cautionsFor(substance)
    expect(cautions.length).toBeGreaterThan(1)
    expect(cautions.at(-1)).toMatch(/rules of your place.*qualified/)
  })

  test('warn of eyes and aluminium for gallium alloys, of heat over trapped liquid for coolant', () => {
    expect(cautionsFor(substanceOf('gallium-indium')).join(' ')).toMatch(/eye.*aluminium/s)
    expect(cautionsFor(substanceOf('coolant-eg')).join(' ')).toMatch(/do not heat a joint/)
  })
})

describe('a substance of the user', () => {
  const oil = {
    id: 'oil',
    name: 'Oil',
    moves: 'wets',
    densityKgM3: { value: 900, source: 'label' },
    surfaceTensionNM: { value: 0.03, source: 'label' },
    viscosityPaS: { value: 0.1, source: 'label' },
    contactAngleMaskDeg: { value: 20, source: 'guess' },
  }

  test('is taken when its way of moving has its figures', () => {
    expect(parseSubstance(oil).ok).toBe(true)
    expect(parseSubstance({ id: 'x', name: 'X', moves: 'crust' }).ok).toBe(true)
  })

  test.each([
    [{ ...oil, densityKgM3: undefined }, '$.densityKgM3', /needs it/],
    [{ id: 'p', name: 'P', moves: 'pinned' }, '$.filmThicknessMm', /needs it/],
    [{ ...oil, densityKgM3: { value: Number.NaN, source: 's' } }, '$.densityKgM3.value', /number/],
    [{ ...oil, densityKgM3: { value: 900 } }, '$.densityKgM3.source', /string/],
    [{ ...oil, viscosityPaS: { value: 1, low: 2, high: 3, source: 's' } }, '$.viscosityPaS', /between/],
    [{ ...oil, moves: 'jumps' }, '$.moves', /wets or pinned or crust/],
  ])('is refused with the field that is wrong (%#)', (input, path, expected) => {
    const faults = faultsIn(parseSubstance(input))
    expect(faults.map((fault) => fault.path)).toContain(path)
    expect(faults.map((fault) => fault.expected).join()).toMatch(expected)
  })

  test('that nobody knows is refused with the ids that are known', () => {
    expect(faultsIn(findSubstance('soup', substances))[0]?.expected).toContain('coolant-eg')
  })
})
