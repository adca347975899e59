/** Substances: what ships is complete and says where it is from; what is missing or wrong is named. */
import { describe, expect, test } from 'vitest'
import { behaviourOf, cautionsFor, findSubstance, parseSubstance, substances } from '../../src/spill/index.ts'
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
        'thermal-paste',
        'pad-oil',
        'sugared-drink',
        'battery-alkaline',
        'varnish',
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

/** Every source in a substance, with the path at which it stands. */
function sourcesIn(value: unknown, path = ''): { path: string; source: string }[] {
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, inner]) =>
    key === 'source' && typeof inner === 'string' ? [{ path, source: inner }] : sourcesIn(inner, `${path}.${key}`),
  )
}

describe('how a shipped substance is cleaned', () => {
  test.each(substances)('$id says it in full, each statement with a source', ({ cleaning }) => {
    expect(cleaning).toBeDefined()
    const {
      rinses = [],
      dissolvesIn = [],
      notIn = [],
      destroys = [],
      driveOut,
      howKnown,
      cooler,
      dryC,
    } = cleaning ?? {}
    for (const list of [rinses, dissolvesIn, notIn, destroys]) expect(list.length).toBeGreaterThan(0)
    for (const said of [...dissolvesIn, ...notIn, ...destroys, driveOut, howKnown, cooler])
      expect(said?.source).toBeTruthy()
    // Aluminium capacitors are rated from 85 °C upwards: common practice, no source.
    expect(dryC?.high ?? dryC?.value).toBeLessThanOrEqual(90)
  })

  test.each(substances)('$id names no shop and no answer site as a source', (substance) => {
    const sources = sourcesIn(substance)
    expect(sources.length).toBeGreaterThan(10)
    for (const { path, source } of sources) expect(`${path}: ${source}`).not.toMatch(/https?:|www\.|\.(com|net|de)\b/)
  })

  test('water goes before alcohol where salts or sugar have to come out: repair guide 2.2.1, local (after IPC-7721)', () => {
    for (const id of ['coolant-eg', 'coolant-pg', 'water', 'sugared-drink', 'battery-alkaline']) {
      const materials = substanceOf(id).cleaning?.rinses.map(({ with: material }) => material) ?? []
      expect(materials.findIndex((material) => material.startsWith('deionised water'))).toBeGreaterThanOrEqual(0)
      expect(materials.at(-1)).toMatch(/^isopropyl alcohol/)
    }
  })

  test('glycols stay where a board is only dried: they boil at 188 and 197 °C (CRC Handbook, from memory)', () => {
    expect(substanceOf('coolant-eg').cleaning?.leftByDrying.words).toContain('197 °C')
    expect(substanceOf('coolant-pg').cleaning?.leftByDrying.words).toContain('188 °C')
  })

  test('gallium alloys are wiped first, not dissolved by alcohol, their oxide yields to dilute alkali or acid', () => {
    // Ma, Zhou and Liu, arXiv 1706.01457 (2017), abstract: ethanol as a mechanical eraser, sodium hydroxide as a chemical one.
    for (const id of ['gallium-indium', 'gallium-indium-tin']) {
      const { cleaning } = substanceOf(id)
      expect(cleaning?.takeUp?.with).toContain('dry cotton swabs')
      expect(cleaning?.notIn[0]?.words).toMatch(/^alcohol/)
      expect(cleaning?.dissolvesIn[0]?.words).toMatch(/sodium hydroxide or dilute acid/)
      // Ludwig, Pereiro-López and Bellet, Acta Materialia 53 (2005) 151: gallium goes along the grain boundaries of aluminium.
      expect(cleaning?.cooler.words).toMatch(/aluminium .* is scrap/i)
      expect(cleaning?.joints?.words).toMatch(/wicked away.*fresh balls/)
    }
  })

  test('silicone oil is taken off by hydrocarbons and not by water or alcohol', () => {
    // Lee, Park and Whitesides, Anal. Chem. 75 (2003) 6544: silicone swells in heptane, hardly in alcohols, not in water.
    const { dissolvesIn = [], notIn = [] } = substanceOf('pad-oil').cleaning ?? {}
    expect(dissolvesIn.map(({ words }) => words).join()).toMatch(/heptane/)
    expect(notIn.map(({ words }) => words).join()).toMatch(/water.*isopropyl/)
  })

  test('is refused with its path where a statement lacks its source', () => {
    const water = substanceOf('water')
    const { source: _, ...unsourced } = water.cleaning?.howKnown ?? { words: '', source: '' }
    const faults = faultsIn(parseSubstance({ ...water, cleaning: { ...water.cleaning, howKnown: unsourced } }))
    expect(faults.map(({ path }) => path)).toEqual(['$.cleaning.howKnown.source'])
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

  test.each([
    [['densityKgM3']],
    [['surfaceTensionNM']],
    [['contactAngleMaskDeg']],
    [['surfaceTensionNM', 'densityKgM3', 'contactAngleMaskDeg']],
  ])('that came without %j has no film: each that is missing is named', (missing) => {
    const without = Object.fromEntries(missing.map((name) => [name, undefined]))
    const faults = faultsIn(behaviourOf({ ...substanceOf('water'), ...without }))
    expect(faults.map(({ path }) => path)).toEqual(missing.map((name) => `$.substances.water.${name}`))
    expect(faults[0]?.expected).toMatch(/moves as "wets" needs it/)
  })

  test('that nobody knows is refused with the ids that are known', () => {
    expect(faultsIn(findSubstance('soup', substances))[0]?.expected).toContain('coolant-eg')
  })
})
