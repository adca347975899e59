/** What is said of a reach: each sentence where it holds, with the figures of the reach and those worked by hand. */
import { describe, expect, test } from 'vitest'
import {
  behaviourOf,
  createReachEngine,
  loadOf,
  type ReachResult,
  type SpillMark,
  streakLengthMm,
  type Substance,
} from '../../src/spill/index.ts'
import { partWithRegion, spillAt, spillBoard, substanceOf, unwrap } from '../support/board-fixture.ts'
import { stackedBoard } from '../support/stacked-board.ts'

const board = spillBoard(90, 60, [
  partWithRegion('U1', 30, 30, { kind: 'memory' }),
  partWithRegion('U2', 70, 30, { bonding: 'underfill' }),
])
const engine = createReachEngine(board)
const reach = (
  substance: Substance,
  more: Partial<SpillMark> = {},
  at: readonly [number, number] = [50, 10],
): ReachResult =>
  unwrap(engine.reach(spillAt(at[0], at[1], { sdMm: 0, substance: substance.id, ...more }), [], substance))
const notes = (...args: Parameters<typeof reach>): string => reach(...args).notes.join('\n')

const water = substanceOf('water')
/** Stays where it is smeared, 0.2 mm thick, and brings no figures of how it is pressed. */
const smear: Substance = {
  id: 'smear',
  name: 'Smear',
  moves: 'pinned',
  filmThicknessMm: { value: 0.2, source: 'made up' },
  attacks: [],
  cautions: [],
}
const smeared = { amount: { smearCm2: 2 }, amountSdLog: 0 }

describe('how far it lies', () => {
  test('of what flows: radius and area are those of the reach', () => {
    const { extent, radiusMm, areaMm2 } = reach(water, { amount: { volumeMl: 0.5 } })
    expect(extent).toBe(`It spreads ${radiusMm.toFixed(1)} mm and covers ${(areaMm2 / 100).toFixed(1)} cm².`)
  })
  test('of what ran down: to each side', () => {
    expect(reach(water, { downDeg: 0 }).extent).toMatch(/ mm to each side of where it ran down and covers /)
  })
  test('of a smear that was pressed: 2 cm² are a disc of √(200 / π) = 8 mm, and 3 mm more', () => {
    const { extent } = reach(smear, { ...smeared, pressed: 'yes', pushMm: 3 })
    expect(extent).toMatch(
      /^It lay (7\.9|8\.0|8\.1) mm around its middle and was pressed about 3 mm further, also under bodies: /,
    )
    // a disc of 11 mm: 3.8 cm²
    expect(Number(/([\d.]+) cm² in all/.exec(extent)?.[1])).toBeCloseTo(Math.PI * 1.1 ** 2, 0)
  })
  test('of a smear that nobody pressed, and of one of which nobody said', () => {
    expect(reach(smear, { ...smeared, pressed: 'no' }).extent).toMatch(
      /^It stays where it was smeared: 2\.0 cm², (7\.9|8\.0|8\.1) mm around its middle\.$/,
    )
    // even chances and 3 mm: assumptions of the room
    expect(reach(smear, { ...smeared, pressed: 'unknown' }).extent).toMatch(
      /Whether a cooler was pressed on it is not known: counted as 50 % likely, then about 3 mm further/,
    )
  })
  test('of a crust: what it covers', () => {
    const crust = substanceOf('flux-dried')
    expect(reach(crust, smeared).extent).toMatch(/: 2\.0 cm², (7\.9|8\.0|8\.1) mm around its middle\.$/)
  })
})

describe('what is noted', () => {
  test('of a liquid: that gaps draw it in, that some are shut, how high it stands', () => {
    const said = notes(water)
    expect(said).toMatch(/It flows, and gaps under bodies draw it in/)
    expect(said).toMatch(/one or two are taken as shut .* \(15 %, an assumption\)/)
    expect(said).toMatch(/It stands [\d.]+ mm high on the mask/)
    expect(said).not.toMatch(/faced down|was mounted|found no place/)
  })
  test('of a gap: over the shorter way across the first package, and within the time of Washburn', () => {
    expect(notes(water)).toMatch(/The gap under U1 draws it in over 6 mm within about [\d.]+ s \(balls slow it down/)
  })
  test('of a gap: under the core where all memory stands on it, for nothing gets under a stack', () => {
    const stacked = stackedBoard()
    const at = stacked.core?.placement.at ?? { x: 0, y: 0 }
    const said = unwrap(createReachEngine(stacked).reach(spillAt(at.x, at.y + 30, { sdMm: 0 }), [], water)).notes
    expect(said.join('\n')).toMatch(/The gap under U1 draws it in over /)
  })
  test('of what does not wet: the pressure that it takes, −2·γ·cosθ / g', () => {
    const ball: Substance = { ...water, id: 'ball', contactAngleMaskDeg: { value: 120, source: 'made up' } }
    // 2 · 0.0728 · 0.5 / 0.3 mm = 243 Pa
    expect(water.surfaceTensionNM?.value).toBeCloseTo(0.0728, 3)
    expect(notes(ball)).toMatch(/It takes 243 Pa to press it into the 0\.3 mm under U1\./)
    expect(notes(ball)).not.toMatch(/are taken as shut/)
  })
  test('of the other side: left out, unless the mark says that it may have got there', () => {
    expect(notes(water)).toMatch(/The other side is left out/)
    expect(notes(water, { reachesOtherSide: true })).toMatch(/over the edge and through holes of 1 mm and more/)
    expect(notes(water, { reachesOtherSide: true })).not.toMatch(/left out/)
  })
  test('of a side that faced down: what clings', () => {
    expect(notes(water, { lay: 'core-down' })).toMatch(/This side faced down: at most 0\.\d+ ml clings as one drop/)
  })
  test('of a card that was mounted: half of it runs down, so far as a rivulet of that much reaches', () => {
    const behaviour = unwrap(behaviourOf(water))
    const lengthMm = streakLengthMm(unwrap(loadOf({ volumeMl: 1 }, water, behaviour)), behaviour)
    const said = /half of it is taken to run down (\d+|[\d.]+) mm at most/.exec(
      notes(water, { amount: { volumeMl: 1 }, downDeg: 270 }, [50, 50]),
    )?.[1]
    expect(Number(said)).toBeCloseTo(lengthMm, 0)
  })
  test('of a point on a body: under it, or from where it leaves one that lets nothing in', () => {
    expect(notes(water, {}, [30, 30])).toMatch(/counted as having run down and under it there/)
    expect(notes(water, {}, [70, 30])).toMatch(/lets nothing under it: it is counted from where it first leaves/)
    expect(notes(water)).not.toMatch(/The point lies on a body/)
  })
  test('of what found no place: of 2 ml on 2 cm², which hold a puddle of 2 to 3.5 mm, 1.3 to 1.6 ml', () => {
    const small = createReachEngine(spillBoard(20, 10))
    const mark = spillAt(8, 5, { sdMm: 0, amountSdLog: 0, amount: { volumeMl: 2 } })
    const { notes: all, unplacedMl } = unwrap(small.reach(mark, [], water))
    const said = Number(/([\d.]+) ml found no place/.exec(all.join(' '))?.[1])
    expect(said).toBeCloseTo(unplacedMl, 1)
    expect(said).toBeGreaterThan(2 - 0.2 * 3.5)
    expect(said).toBeLessThan(2 - 0.2 * 2)
  })
  test('of a smear: whether and how far it was pressed', () => {
    expect(notes(smear, { ...smeared, pressed: 'no' })).toMatch(
      /only when pressed, shaken or wiped, and the mark says that it was not/,
    )
    expect(notes(smear, { ...smeared, pressed: 'yes', pushMm: 4 })).toMatch(
      /was pressed, shaken or wiped up to 4 mm further, also under bodies/,
    )
    // 3 mm, times e^±0.5 in two of three cases: 1.8 to 4.9
    expect(notes(smear, { ...smeared, pressed: 'yes' })).toMatch(
      /further by about 3 mm \(two out of three times 1\.8 to 4\.9 mm\)/,
    )
    expect(notes(smear, { ...smeared, pressed: 'unknown' })).toMatch(
      /with a chance of 50 % it went .* else it is under none/,
    )
  })
  test('of a crust: that it stays', () => {
    expect(notes(substanceOf('flux-dried'), smeared)).toMatch(/It dried where it stood and stays/)
  })
})
