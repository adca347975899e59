/** What each kind of accident breaks on the small board: held to what must be so of every card, and of many together. */
import { describe, expect, it } from 'vitest'
import type { AccidentKind, Damage, LaneFault, SimulatedCard } from '../../src/rehearsal/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { model } from './hand-card.ts'
import { drawn, meanOf, shareOf } from './simulated-support.ts'

const COUNT = 100
const damagesOf = (cards: readonly SimulatedCard[]): readonly Damage[] => cards.flatMap(({ truth }) => truth.damages)
const faultsOf = (cards: readonly SimulatedCard[]): readonly LaneFault[] =>
  damagesOf(cards).flatMap(({ lanes }) => lanes)
const partOf = (lane: string): string => model.laneById.get(lane)?.part ?? ''
const isSparse = ({ perRead }: LaneFault): boolean => perRead < 1
const isWhole = ({ perRead, bits, rows }: LaneFault): boolean => perRead === 1 && bits === 255 && rows === undefined
const isLine = ({ perRead, bits, rows }: LaneFault): boolean => perRead === 1 && bits !== 255 && rows === undefined
const causeOf = ({ truth }: SimulatedCard) => truth.causes[0]

describe('every accident', () => {
  it.each<AccidentKind>(['die', 'joints', 'core-patch', 'rail', 'slip', 'pasty-spill'])(
    '%s spoils lanes of the board, in ways in which lanes fail',
    (kind) => {
      const cards = drawn(kind, 20)
      for (const { truth } of cards) {
        expect(truth.causes.map((cause) => cause.kind)).toEqual([kind])
        expect(truth.damages.every(({ cause }) => cause === 0)).toBe(true)
        expect(truth.spoiled.length).toBeGreaterThan(0)
        expect(new Set(truth.spoiled).size).toBe(truth.spoiled.length)
      }
      for (const { lane, bits, perRead, reads, rows } of faultsOf(cards)) {
        expect(model.laneById.has(lane)).toBe(true)
        expect(bits).toBeGreaterThan(0)
        expect(bits).toBeLessThan(256)
        expect(perRead === 1 || (perRead > 0 && perRead <= 0.5)).toBe(true)
        // a bit now and then reads either way; lines and rows stay where they are
        if (perRead < 1) expect([bits, reads]).toEqual([255, 'random'])
        else if (bits !== 255 || rows !== undefined) expect(reads).not.toBe('random')
      }
    },
  )

  it('is named with a second one where two happened, each damage with its own', () => {
    const cards = drawn('die', 40, { secondAccident: 1 })
    for (const { truth } of cards) {
      expect(truth.causes.map(({ kind }) => kind)).toEqual(['die', 'die'])
      expect(truth.damages.map(({ cause }) => cause)).toEqual([0, 1])
    }
  })
})

describe('a die', () => {
  const cards = drawn('die', COUNT)

  it('is one of the memories, and spoils lanes of its own alone', () => {
    for (const { truth } of cards) {
      const [damage] = truth.damages
      expect(truth.damages).toHaveLength(1)
      expect(damage).toMatchObject({ kind: 'die', lines: [] })
      expect(damage?.at).toBe(damage?.ref)
      expect([truth.causes[0]?.at, truth.needs]).toEqual([damage?.ref, [damage?.ref]])
      for (const { lane } of damage?.lanes ?? []) expect(partOf(lane)).toBe(damage?.ref)
    }
    expect(new Set(damagesOf(cards).map(({ at }) => at))).toEqual(new Set(['U2', 'U3']))
  })

  it('fails whole, in a line, now and then; one lane, a channel of two, or all four', () => {
    const whole = damagesOf(cards).filter(({ lanes }) => lanes.every(isWhole))
    expect(shareOf(damagesOf(cards), ({ lanes }) => lanes.every(isWhole))).toBeGreaterThan(0.35)
    for (const look of [isWhole, isSparse, isLine])
      expect(damagesOf(cards).some(({ lanes }) => lanes.every(look))).toBe(true)
    expect(new Set(whole.map(({ lanes }) => lanes.length))).toEqual(new Set([1, 2, 4]))
    for (const { lanes } of whole.filter((each) => each.lanes.length === 2))
      expect(new Set(lanes.map(({ lane }) => model.laneById.get(lane)?.channel)).size).toBe(1)
    // a line goes through one lane alone
    for (const { lanes } of damagesOf(cards).filter((each) => each.lanes.every(isLine))) expect(lanes).toHaveLength(1)
  })

  it('may have one to three bad rows of one channel that the test walks, in one lane of it or in both', () => {
    const withRows = shippedBoard('splice-6')
    const dies = drawn('die', 40, {}, withRows).filter(({ truth }) =>
      truth.damages.some(({ lanes }) => lanes.some(({ rows }) => rows !== undefined)),
    )
    expect(dies.length).toBeGreaterThan(4)
    for (const { truth, walk } of dies) {
      const [damage] = truth.damages
      const channels = new Set(damage?.lanes.map(({ lane }) => withRows.laneById.get(lane)?.channel))
      expect(channels.size).toBe(1)
      const index = withRows.channels.findIndex(({ id }) => channels.has(id))
      const rows = damage?.lanes[0]?.rows ?? new Set()
      expect([1, 2, 3]).toContain(rows.size)
      for (const row of rows) {
        const words = walk.row.filter((each, word) => each === row && walk.channel[word] === index)
        expect(words.length).toBeGreaterThanOrEqual(4)
      }
    }
    expect(new Set(dies.map(({ truth }) => truth.damages[0]?.lanes.length)).size).toBeGreaterThan(1)
  })
})

describe('joints', () => {
  it('lie under a lane of a memory, or under a command field with all that it serves', () => {
    for (const { truth } of drawn('joints', COUNT)) {
      const [damage] = truth.damages
      const region = model.regionById.get(damage?.at ?? '')
      expect([region?.role, region?.part]).toEqual(['lane', damage?.ref])
      expect(damage?.lanes.map(({ lane }) => lane)).toEqual(region?.lanes)
      expect(truth.causes[0]).toEqual({ kind: 'joints', at: damage?.at })
    }
    const command = drawn('command-joints', COUNT)
    for (const { truth } of command) {
      const [damage] = truth.damages
      const region = model.regionById.get(damage?.at ?? '')
      expect([region?.role, region?.part]).toEqual(['command', damage?.ref])
      expect(damage?.lanes.map(({ lane }) => lane)).toEqual(region?.lanes)
      // one break, one look
      expect(damage?.lanes.every(isWhole) === true || damage?.lanes.every(isSparse) === true).toBe(true)
    }
    expect(new Set(command.map((card) => causeOf(card)?.at)).size).toBe(6)
  })

  it('show in all bits, in a line or two, or now and then', () => {
    const faults = faultsOf(drawn('joints', COUNT))
    for (const look of [isWhole, isLine, isSparse]) expect(shareOf(faults, look)).toBeGreaterThan(0.05)
    const bitsOf = ({ bits }: LaneFault): number => bits.toString(2).replaceAll('0', '').length
    expect(new Set(faults.filter(isLine).map(bitsOf))).toEqual(new Set([1, 2]))
    expect(new Set(faults.filter(isWhole).map(({ reads }) => reads))).toEqual(new Set(['high', 'low', 'random']))
    expect(new Set(faults.filter(isLine).map(({ reads }) => reads))).toEqual(new Set(['high', 'low']))
  })
})

describe('the core', () => {
  it.each<[AccidentKind, Damage['kind']]>([
    ['core-patch', 'core-patch'],
    ['core-controller', 'core'],
    ['core-side', 'core'],
    ['core-whole', 'core'],
  ])('%s must come off, whichever lanes it spoils', (kind, as) => {
    const cards = drawn(kind, 60)
    for (const { truth } of cards) {
      expect(truth.needs).toEqual(['U1'])
      expect(truth.damages).toMatchObject([{ kind: as, at: 'U1', ref: 'U1', lines: [] }])
      expect(truth.causes).toMatchObject([{ kind, at: 'U1' }])
      expect(truth.causes[0]?.severity).toBeGreaterThanOrEqual(0.15)
      expect(truth.causes[0]?.severity).toBeLessThanOrEqual(1)
    }
    expect(new Set(faultsOf(cards).map(({ lane }) => lane)).size).toBe(8)
  })

  it('at one side spoils lanes of that side alone: those of U2 leave it on the right, those of U3 on the left', () => {
    const sides = drawn('core-side', 60).map(({ truth }) => [...new Set(truth.spoiled.map(partOf))])
    for (const parts of sides) expect(parts).toHaveLength(1)
    expect(new Set(sides.flat())).toEqual(new Set(['U2', 'U3']))
  })

  it('in one controller spoils one to three channels that stand next to each other', () => {
    const counts = drawn('core-controller', COUNT).map(({ truth }) => {
      const channels = new Set(truth.spoiled.map((lane) => model.laneById.get(lane)?.channel))
      const missing = model.channels.map(({ id }) => !channels.has(id))
      // of four in a ring two that fail stand beside each other
      if (channels.size === 2) expect([missing[0] === missing[2], missing[1] === missing[3]]).not.toEqual([true, true])
      return channels.size
    })
    expect(new Set(counts)).toEqual(new Set([1, 2, 3]))
  })

  it('in a patch spoils few lanes on some cards, and most on others', () => {
    const counts = drawn('core-patch', COUNT).map(({ truth }) => truth.spoiled.length)
    expect(Math.min(...counts)).toBe(1)
    expect(Math.max(...counts)).toBeGreaterThan(5)
  })
})

describe('power', () => {
  it('of a rail or of a branch starves what it feeds, and is no part', () => {
    for (const [kind, at, fed, shown, share] of [
      ['rail', 'rail VMEM', ['U2', 'U3'], 1, 0.75],
      ['rail-branch', 'branch east of rail VMEM', ['U2'], 0.7, 0.45],
    ] as const) {
      const cards = drawn(kind, COUNT)
      for (const { truth } of cards) {
        const severity = truth.causes[0]?.severity ?? 0
        expect(truth.causes).toEqual([{ kind, at, severity }])
        expect(truth.damages).toMatchObject([{ kind, at, ref: undefined }])
        expect(truth.needs).toEqual([])
        expect(severity).toBeGreaterThanOrEqual(0.15)
        for (const line of truth.damages.flatMap(({ lines }) => lines))
          expect(line).toEqual({ kind: 'rail', name: 'VMEM', severity: severity * shown })
      }
      expect(new Set(faultsOf(cards).map(({ lane }) => partOf(lane)))).toEqual(new Set(fed))
      expect(Math.abs(shareOf(damagesOf(cards), ({ lines }) => lines.length > 0) - share)).toBeLessThan(0.12)
      // what spoils no lane is drawn again, so that those that are left are worse than even draws from 0.15 to 1
      expect(meanOf(cards.map((card) => causeOf(card)?.severity ?? 0))).toBeGreaterThan(0.575)
      // near its margin a lane fails now and then; far from it mostly for good
      expect(faultsOf(cards).some(isSparse) && faultsOf(cards).some(isWhole)).toBe(true)
    }
  })

  it('of a stage is a part, and shows at the stage, at its rail, at both, or nowhere', () => {
    const cards = drawn('power-stage', COUNT)
    for (const { truth } of cards) {
      const severity = truth.causes[0]?.severity ?? 0
      expect(truth.damages).toMatchObject([{ kind: 'power-stage', at: 'S1', ref: 'S1' }])
      expect(truth.needs).toEqual(['S1'])
      for (const line of truth.damages.flatMap(({ lines }) => lines))
        expect(line).toEqual(
          line.kind === 'stage'
            ? { kind: 'stage', name: 'S1', severity }
            : { kind: 'rail', name: 'VMEM', severity: severity * 0.8 },
        )
    }
    const shown = new Set(damagesOf(cards).map(({ lines }) => lines.map(({ kind }) => kind).join()))
    expect(shown).toEqual(new Set(['', 'stage', 'rail', 'stage,rail']))
  })
})

describe('a slipped tool', () => {
  const cards = drawn('slip', COUNT)

  it('cuts tracks of the side on which it slipped, within its reach, and hits what stands there', () => {
    for (const { truth } of cards) {
      const { slip } = truth.causes[0] ?? {}
      if (slip === undefined) throw new Error('no slip')
      expect(slip.radiusMm).toBeGreaterThanOrEqual(0.8)
      expect(slip.radiusMm).toBeLessThan(3.5)
      for (const { kind, at, ref, lanes, lines } of truth.damages) {
        expect(kind).toBe('slip')
        if (ref !== undefined) {
          expect([at, ref, slip.side]).toEqual(['S1', 'S1', 'top'])
          continue
        }
        const corridor = model.corridorByLane.get(at)
        expect([corridor?.side, lines, lanes.map(({ lane }) => lane)]).toEqual([slip.side, [], [at]])
        // tracks are straight on this board: the nearest point of the line to where it slipped
        const [a, b] = corridor?.path ?? []
        if (a === undefined || b === undefined) throw new Error('no track')
        const [dx, dy] = [b.x - a.x, b.y - a.y]
        const along = ((slip.at.x - a.x) * dx + (slip.at.y - a.y) * dy) / (dx * dx + dy * dy)
        const share = Math.min(1, Math.max(0, along))
        const gap = Math.hypot(a.x + share * dx - slip.at.x, a.y + share * dy - slip.at.y)
        expect(gap).toBeLessThanOrEqual(slip.radiusMm + 1.7 + 1e-9)
      }
    }
    const hit = damagesOf(cards)
    expect(hit.some(({ ref }) => ref === 'S1')).toBe(true)
    expect(new Set(hit.flatMap(({ ref, at }) => (ref === undefined ? [partOf(at)] : [])))).toEqual(
      new Set(['U2', 'U3']),
    )
  })

  it('slips on the top mostly', () => {
    const onTop = shareOf(cards, (card) => causeOf(card)?.slip?.side === 'top')
    expect(onTop).toBeGreaterThan(0.7)
    expect(onTop).toBeLessThan(1)
  })
})

describe('nothing', () => {
  it('breaks nothing, though something was spilled on three cards of ten', () => {
    const cards = drawn('nothing', COUNT)
    for (const { truth } of cards) {
      expect(truth).toMatchObject({ damages: [], spoiled: [], needs: [] })
      expect(truth.causes.map(({ kind }) => kind)).toEqual(['nothing'])
    }
    expect(Math.abs(shareOf(cards, (card) => causeOf(card)?.spill !== undefined) - 0.3)).toBeLessThan(0.12)
  })
})
