/** Where one may look and what may be checked: one edge of each package, four of the core, each check once at each place that suits it. */
import { describe, expect, test } from 'vitest'
import type { BoardModel } from '../../src/board/index.ts'
import type { AreaMark } from '../../src/spill/index.ts'
import {
  checkById,
  checkCatalogue,
  checkInstances,
  checkWords,
  type Findings,
  liftableParts,
  lookPlaces,
} from '../../src/suspects/index.ts'
import { stackedBoard } from '../support/stacked-board.ts'
import { eastAndWest, failingIn, findingsOf, rail, ringOfTwelve, spillMark } from './small-board.ts'

const cardWith = (core: boolean): BoardModel =>
  eastAndWest({
    core,
    corridors: core,
    commandRegions: false,
    rails: [rail('VMEM', ['U2', 'U3'], ['S1', 'S9'], [])],
    stages: ['S1', 'S2'],
  })
const card = cardWith(true)
const findings = (failing: readonly string[], more: Partial<Findings> = {}, model = card): Findings =>
  findingsOf(failingIn(model, failing), more)
const looks = (more: Partial<Findings> = {}, model = card): string[] =>
  lookPlaces(model, findings([], more, model)).map(({ at, mark }) => `${at}: ${mark.at.x}, ${mark.at.y}`)

describe('one looks', () => {
  // 0.8 mm beside a body: 50 ± 10.8 at the core, 6.8 beside the middle of a package
  const core = [
    'the south edge of U1: 50, 39.2',
    'the east edge of U1: 60.8, 50',
    'the north edge of U1: 50, 60.8',
    'the west edge of U1: 39.2, 50',
  ]
  test('at each edge of the core, and at each package’s edge that is next to it', () => {
    expect(looks().toSorted()).toEqual(
      [...core, 'the west edge of U2: 83.2, 50', 'the east edge of U3: 16.8, 50'].toSorted(),
    )
  })
  test('or next to the nearest spill of its side', () => {
    const near = (side: 'top' | 'bottom') => ({ ...spillMark('s', { x: 90, y: 70 }), side })
    const far = spillMark('t', { x: 90, y: 10 })
    expect(looks({ spills: [far, near('top')] })).toContain('the north edge of U2: 90, 56.8')
    expect(looks({ spills: [near('bottom')] })).toContain('the west edge of U2: 83.2, 50')
  })
  test('not where something was seen within 1.5 mm on that side', () => {
    const seen = (x: number, side: 'top' | 'bottom'): AreaMark => ({
      kind: 'clean',
      id: 'a',
      side,
      at: { x, y: 50 },
      radiusMm: 1,
    })
    expect(looks({ areas: [seen(84.6, 'top')] }).join()).not.toContain('U2')
    expect(looks({ areas: [seen(84.8, 'top')] }).join()).toContain('the west edge of U2')
    expect(looks({ areas: [seen(84.6, 'bottom')] }).join()).toContain('the west edge of U2')
  })
  test('at one edge of each package where there is no core', () => {
    expect(looks({}, cardWith(false)).map((place) => place.replace(/:.*/, ''))).toEqual([
      'the south edge of U2',
      'the south edge of U3',
    ])
  })
  test('with a mark of its own for each place', () => {
    const [place] = lookPlaces(card, findings([])).filter(({ ref }) => ref === 'U2')
    expect(place?.mark).toEqual({
      kind: 'clean',
      id: 'look-U2-west',
      side: 'top',
      at: { x: 83.2, y: 50 },
      radiusMm: 1.5,
    })
  })
  test('never under a core, where its stacks stand', () => {
    const model = stackedBoard()
    expect(new Set(lookPlaces(model, findings([], {}, model)).map(({ ref }) => ref))).toEqual(new Set(['U1']))
  })
})

describe('a check is made', () => {
  const instances = (seen: Findings, model = card) => checkInstances(model, seen, lookPlaces(model, seen))
  const at = (check: string, seen: Findings, model = card): string[] =>
    instances(seen, model).instances.flatMap((each) => (each.check.id === check ? [each.at] : []))
  const fails = findings(['U2.A0'])
  test.each<[string, string[]]>([
    ['rail-cold', ['VMEM']],
    // S9 makes the rail but is not on the board, S2 is there but makes none
    ['stage-siblings', ['S1']],
    ['press', ['U2', 'U1']],
    ['corridor-ohms', ['U2.A0']],
    ['lane-diode', ['U2.A0']],
  ])('%s at %j where U2.A0 fails', (check, places) => {
    expect(checkById(check)).toBeDefined()
    expect(at(check, fails)).toEqual(places)
  })
  test('once: not where it was made, tried in vain, or measured', () => {
    expect(at('press', { ...fails, checks: [{ check: 'press', at: 'U2', found: true }] })).toEqual(['U1'])
    expect(at('press', { ...fails, unanswered: [{ check: 'press', at: 'U1' }] })).toEqual(['U2'])
    expect(at('rail-cold', { ...fails, rails: new Map([['VMEM', 'fine']]) })).toEqual([])
    expect(at('stage-siblings', { ...fails, stages: new Map([['S1', 'fine']]) })).toEqual([])
    expect(at('stage-siblings', { ...fails, rails: new Map([['S1', 'fine']]) })).toEqual(['S1'])
  })
  test('with what it lights up', () => {
    const found = (check: string) => {
      const each = instances(fails).instances.find((one) => one.check.id === check)
      return [each?.refs, each?.lanes]
    }
    expect(found('rail-cold')).toEqual([['S1', 'S9'], []])
    expect(found('lane-diode')).toEqual([['U2'], ['U2.A0']])
    expect(found('press')).toEqual([['U2'], []])
  })
  test('at sixteen failing lanes at most, and how many more there are is said', () => {
    const ring = ringOfTwelve()
    const all = (count: number): Findings =>
      findings(
        ring.lanes.slice(0, count).map(({ id }) => id),
        {},
        ring,
      )
    expect(at('lane-diode', all(16), ring)).toHaveLength(16)
    expect(instances(all(16), ring).leftOut).toEqual([])
    expect(at('lane-diode', all(20), ring)).toHaveLength(16)
    expect(instances(all(20), ring).leftOut).toEqual(['checks at 4 more failing lanes'])
  })
  test('only where it is proposed at all', () => {
    const ids = new Set(instances(findings(['U2', 'U3'])).instances.map(({ check }) => check.id))
    expect(checkCatalogue.filter(({ id, proposed }) => ids.has(id) && !proposed)).toEqual([])
    expect(checkCatalogue.some(({ proposed }) => !proposed)).toBe(true)
  })
  test('in its own words with the place filled in', () => {
    expect(checkWords('Is {at} off? Look at {at}.', 'rail VMEM')).toBe('Is rail VMEM off? Look at rail VMEM.')
    expect(checkById('no such check')).toBeUndefined()
  })
})

describe('parts that can come off', () => {
  test('are the core, packages on the board, and what makes rails', () => {
    expect(liftableParts(card)).toEqual(['U1', 'U2', 'U3', 'S1', 'S2'])
    expect(liftableParts(cardWith(false))).toEqual(['U2', 'U3', 'S1', 'S2'])
  })
  test('never a stack by itself', () => {
    expect(liftableParts(stackedBoard())).not.toContain('U11')
  })
})
