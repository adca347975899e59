/** What is told, measured, reported and found on simulated cards, where its figure is never or always. */
import { describe, expect, it } from 'vitest'
import type { Damage, SimulatedCard } from '../../src/rehearsal/index.ts'
import { tallyOfCard } from '../../src/rehearsal/index.ts'
import { damage, model } from './hand-card.ts'
import { drawn, meanOf, shareOf } from './simulated-support.ts'

const COUNT = 40
const toldOf = (cards: readonly SimulatedCard[]): Set<string> =>
  new Set(cards.map(({ observations }) => observations.told))
const QUIET = { falseReport: 0, harmlessSlip: 0 }

describe('the owner of a simulated card', () => {
  it('where nothing happened says so, or says nothing', () => {
    expect(toldOf(drawn('die', 10, { ...QUIET, saysNoAccident: 1 }))).toEqual(new Set(['no-accident']))
    expect(toldOf(drawn('die', 10, { ...QUIET, saysNoAccident: 0 }))).toEqual(new Set(['unknown']))
  })

  it('where something happened that is not told says nothing, or that nothing did', () => {
    const untold = { ...QUIET, spillReported: 0, slipSeen: 0, saysNoAccident: 0 }
    for (const kind of ['pasty-spill', 'slip'] as const) {
      const silent = drawn(kind, 10, { ...untold, silentOfUnreported: 1 })
      expect(toldOf(silent)).toEqual(new Set(['unknown']))
      expect(silent.every(({ observations }) => observations.spills.length + observations.slips.length === 0)).toBe(
        true,
      )
      expect(toldOf(drawn(kind, 10, { ...untold, silentOfUnreported: 0, saysNoAccident: 0 }))).toEqual(
        new Set(['no-accident']),
      )
    }
  })

  it('tells of a spill near where it was, on its side, of its substance, and about as much', () => {
    const cards = drawn('pasty-spill', COUNT, { ...QUIET, spillReported: 1, uprightTold: 1 })
    const ratios = cards.map(({ truth, observations }) => {
      const spill = truth.causes[0]?.spill
      const [mark] = observations.spills
      if (spill === undefined || mark === undefined) throw new Error('no spill')
      expect(observations.told).toBe('accident')
      expect(observations.spills).toHaveLength(1)
      expect(mark).toMatchObject({ id: 'spill-1', side: spill.side, substance: spill.substance, amountSdLog: 0.5 })
      expect(mark.downDeg).toBe(spill.downDeg)
      // ten deviations, each to either side at most 1.3 of what is said
      expect(Math.hypot(mark.at.x - spill.at.x, mark.at.y - spill.at.y)).toBeLessThan(6 * 1.3 * mark.sdMm)
      if (spill.smear === undefined) expect([mark.pressed, mark.pushMm]).toEqual(['unknown', 0])
      else if (mark.pushMm > 0) expect(mark.pressed).toBe('yes')
      if ('volumeMl' in mark.amount) expect(spill.smear).toBeUndefined()
      return 'volumeMl' in mark.amount
        ? mark.amount.volumeMl / spill.volumeMl
        : mark.amount.smearCm2 / (spill.smear?.areaCm2 ?? NaN)
    })
    // a log-normal about the truth with 0.5: the mean of 40 logarithms within 3 · 0.5 / √40
    expect(Math.abs(meanOf(ratios.map(Math.log)))).toBeLessThan(0.24)
    const answers = new Set(cards.map(({ observations }) => observations.spills[0]?.pressed))
    expect(answers).toEqual(new Set(['yes', 'no', 'unknown']))
  })

  it('tells of how the card stood wrongly, or not, where that is not told rightly', () => {
    const cards = drawn('pasty-spill', COUNT, { ...QUIET, spillReported: 1, upright: 0, uprightTold: 0 })
    const told = cards.map(({ observations }) => observations.spills[0]?.downDeg)
    expect(cards.every(({ truth }) => truth.causes[0]?.spill?.downDeg === undefined)).toBe(true)
    expect(new Set(told)).toEqual(new Set([undefined, 0, 90, 180, 270]))
    const upright = drawn('pasty-spill', COUNT, { upright: 1 }).map(({ truth }) => truth.causes[0]?.spill?.downDeg)
    expect(new Set(upright)).toEqual(new Set([0, 90, 180, 270]))
  })

  it('may take dirt for a spill where none was, or find an old scratch', () => {
    const cards = drawn('die', COUNT, { falseReport: 1, harmlessSlip: 1 })
    for (const { observations } of cards) {
      expect(observations).toMatchObject({
        told: 'accident',
        spills: [{ kind: 'spill', id: 'spill-1', side: 'top', sdMm: 4, amountSdLog: 0.5 }],
        slips: [{ kind: 'slip', id: 'slip-1' }],
      })
      const [spill] = observations.spills
      expect(['coolant-eg', 'water', 'flux-fresh']).toContain(spill?.substance)
      const { x = -1, y = -1 } = spill?.at ?? {}
      // on the board of 120 by 80 mm
      expect(x >= 0 && x <= 120 && y >= 0 && y <= 80).toBe(true)
    }
    expect(new Set(cards.map(({ observations }) => observations.spills[0]?.substance)).size).toBe(3)
    const spilled = drawn('pasty-spill', 10, { falseReport: 1, spillReported: 0, harmlessSlip: 0 })
    expect(spilled.every(({ observations }) => observations.spills.length === 0)).toBe(true)
  })

  it('shows the scratch where the tool slipped, about as wide', () => {
    for (const { truth, observations } of drawn('slip', COUNT, { ...QUIET, slipSeen: 1 })) {
      const slip = truth.causes[0]?.slip
      const [mark] = observations.slips
      if (slip === undefined || mark === undefined) throw new Error('no slip')
      expect(mark).toMatchObject({ kind: 'slip', id: 'slip-1', side: slip.side })
      expect(Math.abs(mark.at.x - slip.at.x)).toBeLessThan(3)
      expect(Math.abs(mark.at.y - slip.at.y)).toBeLessThan(3)
      expect(Math.abs(Math.log(mark.radiusMm / slip.radiusMm))).toBeLessThan(1)
    }
  })
})

describe('looks along edges', () => {
  const looksOf = (figures: Parameters<typeof drawn>[2]) =>
    drawn('die', 10, { ...QUIET, ...figures }).map(({ observations }) => observations.areas)

  it('are none where nobody looked, and one of each edge where somebody looked at all', () => {
    expect(looksOf({ looked: 0, edgeLooked: 1 }).flat()).toEqual([])
    expect(looksOf({ looked: 1, edgeLooked: 0 }).flat()).toEqual([])
    const all = looksOf({ looked: 1, edgeLooked: 1, residueSeenElsewhere: 0 })
    for (const areas of all) {
      expect(areas.length).toBeGreaterThan(3)
      expect(new Set(areas.map(({ id }) => id)).size).toBe(areas.length)
      expect(areas.every(({ kind }) => kind === 'clean')).toBe(true)
    }
    const dirty = looksOf({ looked: 1, edgeLooked: 1, residueSeenElsewhere: 1 })
    expect(dirty.flat().every(({ kind }) => kind === 'residue')).toBe(true)
  })

  it('show residue at edges that were wet, as does the check later', () => {
    const figures = { ...QUIET, looked: 1, edgeLooked: 1, residueSeen: 1, residueSeenElsewhere: 0, spillReported: 1 }
    const cards = drawn('pasty-spill', COUNT, figures)
    expect(cards.some(({ observations }) => observations.areas.some(({ kind }) => kind === 'residue'))).toBe(true)
    for (const { observations, truth, outcomeOf } of cards) {
      const wet = truth.causes[0]?.spill?.wet
      if (wet === undefined) throw new Error('no spill')
      for (const { kind, at, side, radiusMm, id } of observations.areas) {
        const near = [...wet.cells.entries()].some(([cell, isWet]) => {
          const x = wet.minX + (cell % wet.columns) + 0.5
          const y = wet.minY + Math.floor(cell / wet.columns) + 0.5
          return isWet === 1 && Math.hypot(x - at.x, y - at.y) <= radiusMm
        })
        expect(kind).toBe(near && side === wet.side ? 'residue' : 'clean')
        const [, ref, edge] = /^look-(.+)-(\w+)$/.exec(id) ?? []
        expect(outcomeOf('edge-look', `the ${edge} edge of ${ref}`)).toBe(kind === 'residue')
      }
    }
  })
})

describe('cold readings', () => {
  const ALL = { railsMeasured: 1, stagesMeasured: 1, lineMeasured: 1, readingWrong: 0 }
  const ohms = (cards: readonly SimulatedCard[], kind: 'rail' | 'stage') =>
    cards.flatMap(({ observations }) =>
      observations.measurements.flatMap(({ line, reading }) =>
        line.kind === kind && reading.kind === 'value' ? [reading.value] : [],
      ),
    )

  it('are of all lines or of none, by what was measured', () => {
    const [card] = drawn('die', 1, ALL)
    expect(card?.observations.measurements.map(({ line, quantity, phase }) => [line, quantity, phase])).toEqual([
      [{ kind: 'rail', name: 'VMEM' }, 'ohms', 'before'],
      [{ kind: 'stage', name: 'S1', point: 'pwm' }, 'ohms', 'before'],
    ])
    const lines = (figures: Partial<typeof ALL>) =>
      drawn('die', 1, { ...ALL, ...figures })[0]?.observations.measurements.map(({ line }) => line.name)
    expect(lines({ railsMeasured: 0 })).toEqual(['S1'])
    expect(lines({ stagesMeasured: 0 })).toEqual(['VMEM'])
    expect(lines({ lineMeasured: 0 })).toEqual([])
  })

  it('of sound lines lie in the rail’s range, and between 5 and 50 kΩ at a stage', () => {
    const cards = drawn('die', COUNT, ALL)
    for (const value of ohms(cards, 'rail')) {
      expect(value).toBeGreaterThan(20)
      expect(value).toBeLessThan(150)
    }
    // from the 12th to the 88th hundredth of the range in logarithms: 20 · 7.5^0.5 in the middle
    expect(Math.abs(meanOf(ohms(cards, 'rail').map(Math.log)) - Math.log(20 * Math.sqrt(7.5)))).toBeLessThan(0.25)
    for (const value of ohms(cards, 'stage')) {
      expect(value).toBeGreaterThan(5000 * 0.85)
      expect(value).toBeLessThan(50_000 * 1.15)
    }
    expect(Math.abs(meanOf(ohms(cards, 'stage').map(Math.log)) - Math.log(5000 * Math.sqrt(10)))).toBeLessThan(0.4)
    for (const { observations } of cards)
      for (const { reading, typed } of observations.measurements)
        if (reading.kind === 'value')
          expect([`${reading.value}`, Number(reading.value.toPrecision(4))]).toEqual([typed, reading.value])
  })

  it('of a line that is off are 0.35 · (1 − severity)² of sound, by the worst of its damages', () => {
    const [card] = drawn('die', 1, ALL)
    if (card === undefined) throw new Error('no card')
    const off = (kind: 'rail' | 'stage', severity: number): Damage =>
      damage({ lanes: [], lines: [{ kind, name: kind === 'rail' ? 'VMEM' : 'S1', severity }] })
    const value = (kind: 'rail' | 'stage', ...left: Damage[]): number => {
      const [read] = card.withLeft(left).measure({ kind, name: kind === 'rail' ? 'VMEM' : 'S1' })
      if (read?.reading.kind !== 'value') throw new Error('no value')
      return read.reading.value
    }
    // the leads add at most 0.1 Ω to either
    const sound = value('rail')
    expect(value('rail', off('rail', 0.5)) / sound).toBeCloseTo(0.35 * 0.25, 2)
    expect(value('rail', off('rail', 0.2), off('rail', 0.5), off('rail', 0.1))).toBe(value('rail', off('rail', 0.5)))
    expect(value('rail', off('rail', 1))).toBeLessThan(0.14)
    expect(value('rail', off('stage', 1))).toBe(sound)
    expect(value('stage', off('stage', 0.5)) / value('stage')).toBeCloseTo(0.0875, 3)
    expect(value('stage', off('rail', 0.5))).toBe(value('stage'))
    const { outcomeOf } = card.withLeft([off('rail', 0.9), off('stage', 0.9)])
    expect([outcomeOf('rail-cold', 'VMEM'), card.withLeft([]).outcomeOf('rail-cold', 'VMEM')]).toEqual([true, false])
    expect(card.outcomeOf('rail-cold', 'VMEM')).toBe(false)
  })
})

describe('what checks and tests find', () => {
  const cards = drawn('joints', 120)
  const found = (check: string, at: string, left: readonly Damage[]): number =>
    shareOf(cards, (card) => card.withLeft(left).outcomeOf(check, at))
  const joints = damage({ kind: 'joints', at: 'U2/A0' })

  // shares of 120 lie within 3 · √(p (1 − p) / 120) of the catalogue’s
  it.each<[string, string, string, readonly Damage[], number]>([
    ['joints of a part by pressing it', 'press', 'U2', [joints], 1 - 0.45 * 0.97],
    ['nothing where another part is bad, but false alarms', 'press', 'U3', [joints], 0.03],
    ['two at once more often', 'press', 'U2', [joints, { ...joints, at: 'U2/A1' }], 1 - 0.45 * 0.45 * 0.97],
    ['joints at the lane that they spoil', 'lane-diode', 'U2.A0', [joints], 1 - 0.45 * 0.96],
    ['nothing at another lane', 'lane-diode', 'U2.B0', [joints], 0.04],
    [
      'a cut track at its lane',
      'corridor-ohms',
      'U2.A0',
      [damage({ kind: 'corridor', at: 'U2.A0', ref: undefined })],
      1 - 0.15 * 0.98,
    ],
  ])('%s', (_, check, at, left, share) => {
    expect(Math.abs(found(check, at, left) - share)).toBeLessThan(3 * Math.sqrt((share * (1 - share)) / 120) + 0.005)
  })

  it('a check that nobody knows finds nothing', () => {
    expect(found('none', 'U2', [joints])).toBe(0)
    expect(shareOf(cards, (card) => card.outcomeOf('none', 'U2'))).toBe(0)
  })

  it('a part that came off is right, and what lay there is told', () => {
    for (const { truth, lift, retest } of cards.slice(0, 20)) {
      const [ref = ''] = truth.needs
      const other = ref === 'U2' ? 'U3' : 'U2'
      expect(lift([ref, other])).toEqual([
        { ref, atFault: true, wet: [], kinds: ['joints'] },
        { ref: other, atFault: false, wet: [], kinds: [] },
      ])
      expect([...retest([ref]).values()]).toEqual(model.lanes.map(() => 'pass'))
      const failing = [...retest([other])].flatMap(([id, state]) => (state === 'fail' ? [id] : []))
      expect(truth.spoiled).toEqual(expect.arrayContaining(failing))
    }
  })

  it('cut tracks and rails that read low are mended in passing, what shows under load only where it is gone into', () => {
    for (const { truth, retest } of drawn('rail', 20)) {
      const failing = (...args: Parameters<typeof retest>) =>
        [...retest(...args).values()].filter((state) => state === 'fail').length
      const isRead = truth.damages.some(({ lines }) => lines.length > 0)
      expect(failing([], ['rail VMEM'])).toBe(0)
      if (isRead) expect([failing(['U2']), failing([], [])]).toEqual([0, 0])
      else expect(failing(['U2'])).toBe(failing(['U2'], ['rail OTHER']) > 0 ? failing(['U2']) : 0)
    }
    for (const { retest } of drawn('rail-branch', 20))
      expect([...retest([], ['rail VMEM']).values()]).not.toContain('fail')
  })
})

describe('the report of a simulated card', () => {
  const textOf = ({ observations }: SimulatedCard) => {
    const { report } = observations
    if (report.kind !== 'text') throw new Error('no text')
    return report
  }

  it('is rows with addresses in one of three layouts, each with how it is read', () => {
    const cards = drawn('die', COUNT, { rowReports: 1 })
    const layouts = new Map(cards.map((card) => [card.observations.report.layout, textOf(card)]))
    expect(new Set(layouts.keys())).toEqual(new Set(['comma rows', 'named values', 'address and difference']))
    const same = { skipLinesWith: [], addressUnitBytes: 1 }
    expect(layouts.get('comma rows')?.recipe).toEqual({
      ...same,
      name: 'element, address, words',
      layout: { kind: 'delimited', delimiter: ',' },
      columns: [
        { role: 'address', at: 1, base: 'hex' },
        { role: 'expected', at: 2, base: 'hex' },
        { role: 'actual', at: 3, base: 'hex' },
      ],
    })
    expect(layouts.get('named values')?.recipe).toMatchObject({
      ...same,
      name: 'named values',
      layout: { kind: 'pairs' },
    })
    expect(layouts.get('address and difference')?.recipe).toMatchObject({ ...same, name: 'address and difference' })
    expect(layouts.get('comma rows')?.text).toMatch(
      /^element,address,expected,actual\n(?:[1-6],0x[0-9a-f]{9},0x(?:0{8}|f{8}),0x[0-9a-f]{8}\n)+$/,
    )
    expect(layouts.get('named values')?.text).toMatch(
      /^(?:where=0x[0-9a-f]{9} wanted=0x(?:0{8}|f{8}) got=0x[0-9a-f]{8}\n)+$/,
    )
    expect(layouts.get('address and difference')?.text).toMatch(/^(?:0x[0-9a-f]{9}\t0x[0-9a-f]{8}\n)+$/)
  })

  it('of a card without bad reads says so, and needs no recipe', () => {
    for (const card of drawn('nothing', 10, { rowReports: 1 })) {
      const { text, recipe } = textOf(card)
      expect(text).toMatch(/^(?:element,address,expected,actual\n)?no read came back wrong\n$/)
      expect(recipe).toBeUndefined()
    }
  })

  it('is a list or a table of all lanes with their counts, without those of some packages where it is partial', async () => {
    const cards = drawn('die', 20, { rowReports: 0, partlyTested: 0 })
    const layouts = new Set<string>()
    for (const card of cards) {
      const { report } = card.observations
      layouts.add(report.layout)
      const tally = await tallyOfCard(card)
      if (!tally.ok) throw new Error('unreadable')
      const states = tally.value.parts.flatMap(({ channels }) => channels.flatMap((channel) => channel.lanes))
      expect(states.every(({ state }) => state !== 'untested')).toBe(true)
      if (report.kind === 'text') {
        expect(
          report.text
            .split('\n')
            .slice(0, -1)
            .map((row) => row.split(';')[0]),
        ).toEqual(['lane', ...model.lanes.map(({ id }) => id)])
        expect(report.recipe).toMatchObject({ name: 'lane and count', layout: { kind: 'delimited', delimiter: ';' } })
      } else expect(report.rows.map(({ lane }) => lane)).toEqual(model.lanes.map(({ id }) => id))
    }
    expect(layouts).toEqual(new Set(['lane and count', 'table by hand']))
    const partial = drawn('die', COUNT, { rowReports: 0, partlyTested: 1 }).map(({ observations: { report } }) =>
      report.kind === 'table' ? report.rows.length : report.text.split('\n').length - 2,
    )
    // packages have four lanes each; where both are left out a list says that nothing was wrong
    expect(partial.every((rows) => [0, 1, 4, 8].includes(rows))).toBe(true)
    expect(partial).toContain(4)
    expect(partial).toContain(8)
  })
})
