/** Core, memory parts, lanes and rails of small layouts made by hand, where the answer is known by construction. */
import { describe, expect, it } from 'vitest'
import { loadBoard } from '../../src/board/index.ts'
import { footprintText, imported, layoutText, type PadText } from '../support/kicad-text.ts'

/** A 96-ball package: columns 1-3 and 7-9, rows A to T without I, O, Q and S (JESD79-4, x16). */
const ROWS = 'ABCDEFGHJKLMNPRT'.split('')
const COLUMNS = [1, 2, 3, 7, 8, 9]
/** Data balls of the x16 package by JESD79-4: DQL0-7 and DQU0-7; the same that the answers for vme-wren list. */
const LOWER = ['G2', 'F7', 'H3', 'H7', 'H2', 'H8', 'J3', 'J7']
const UPPER = ['A3', 'B8', 'C3', 'C7', 'C2', 'C8', 'D3', 'D7']
/** Some of its supply balls, by the same list. */
const SUPPLY = new Map([
  ...['A1', 'A9', 'B3', 'B9', 'C1', 'D1', 'D9', 'F2', 'F8', 'G1', 'G7', 'G9', 'J1', 'J2'].map(
    (b) => [b, '+1V2'] as const,
  ),
  ...['A2', 'A8', 'B2', 'C9', 'D2', 'D8', 'E1', 'E3', 'E8', 'E9', 'F1', 'G8', 'H1', 'H9', 'K1'].map(
    (b) => [b, 'GND'] as const,
  ),
])

function balls96(netOf: (ball: string) => string | undefined): PadText[] {
  return ROWS.flatMap((row, r) =>
    COLUMNS.map((column): PadText => {
      const number = `${row}${column}`
      const net = netOf(number) ?? SUPPLY.get(number)
      return { number, x: (column - 5) * 0.8, y: (r - 7.5) * 0.8, ...(net === undefined ? {} : { net }) }
    }),
  )
}

/** A core whose pad `k` stands on the net that is given for it. */
function coreText(nets: readonly string[], functions: readonly string[] = []): string {
  const pads = nets.map((net, k): PadText => {
    const pinFunction = functions[k]
    return { number: String(k + 1), x: k * 0.5, y: 0, net, ...(pinFunction === undefined ? {} : { pinFunction }) }
  })
  const supply = Array.from({ length: 20 }, (_, k): PadText => ({ number: `G${k}`, x: k * 0.5, y: 5, net: 'GND' }))
  return footprintText('U1', [...pads, ...supply], { x: 20, y: 20 })
}

const lower = (k: number): string => `/LOW${(k * 3) % 8}`

describe('a memory part without pin functions', () => {
  const memory = footprintText(
    'U2',
    balls96((ball) => (LOWER.includes(ball) ? lower(LOWER.indexOf(ball)) : undefined)),
    { x: 60, y: 20 },
  )
  const nets = Array.from({ length: 8 }, (_, k) => `/LOW${k}`)

  it('is told by its balls, and its lanes by the ball map, whatever numbers its nets bear', async () => {
    const { description } = await imported(layoutText([coreText(nets), memory]))
    expect(description.parts.map((part) => [part.ref, part.kind])).toEqual([
      ['U1', 'core'],
      ['U2', 'memory'],
    ])
    expect(description.memory.channels).toMatchObject([{ id: 'U2', part: 'U2', lanes: [{ name: 'L' }] }])
    expect(description.memory.channels[0]?.lanes[0]?.bits).toEqual(
      LOWER.map((memoryBall, k) => ({ memoryBall, coreBall: String(((k * 3) % 8) + 1) })),
    )
  })

  it('gets no lane where nothing is connected, and says so', async () => {
    const { description, untold } = await imported(layoutText([coreText(nets), memory]))
    expect(description.memory.channels[0]?.lanes.map((lane) => lane.name)).toEqual(['L'])
    expect(untold.join('\n')).toContain('left out: U2.U')
  })

  it('keeps the order of the core’s own data bits where its pins name them', async () => {
    const functions = Array.from({ length: 8 }, (_, k) => `MEM_DQ${15 - k}`)
    const { description, untold } = await imported(layoutText([coreText(nets, functions), memory]))
    const bits = description.memory.channels[0]?.lanes[0]?.bits ?? []
    expect(bits.map((bit) => bit.coreBall)).toEqual(['8', '7', '6', '5', '4', '3', '2', '1'])
    expect(untold.join('\n')).not.toContain('bits are counted as the memory does')
  })

  it('draws no corridor where there is no track, says so, and still loads', async () => {
    const { description, untold } = await imported(layoutText([coreText(nets), memory]))
    expect(description.memory.channels[0]?.lanes[0]?.corridor).toBeUndefined()
    expect(untold.join('\n')).toContain('No tracks lead all the way along these lanes')
    expect(loadBoard(description).ok).toBe(true)
  })
})

describe('data bits whose nets bear numbers', () => {
  /** Net of each lower ball, DQL0 to DQL7, crossed within the byte as boards do. */
  const crossed = [11, 8, 9, 10, 15, 13, 14, 12]
  const netOf = (bit: number): string => `/mem/DDR_DQ${bit}`
  const memory = (names: (bit: number) => string): string =>
    footprintText(
      'U2',
      balls96((ball) => (LOWER.includes(ball) ? names(crossed[LOWER.indexOf(ball)] ?? 0) : undefined)),
      { x: 60, y: 20 },
    )
  const coreNets = Array.from({ length: 8 }, (_, k) => netOf(8 + k))

  it('are counted as the nets do, with the memory’s own numbers beside them', async () => {
    const { description, untold } = await imported(layoutText([coreText(coreNets), memory(netOf)]))
    const [lane] = description.memory.channels[0]?.lanes ?? []
    expect(lane?.bits?.map(({ coreBall }) => coreBall)).toEqual(['1', '2', '3', '4', '5', '6', '7', '8'])
    // Net DQ8 lies on DQL1, DQ9 on DQL2 and so on: the inverse of the crossing above.
    expect(lane?.swaps).toEqual([1, 2, 3, 0, 7, 5, 6, 4])
    expect(lane?.bits?.map(({ memoryBall }) => memoryBall)).toEqual(lane?.swaps?.map((dq) => LOWER[dq]))
    expect(untold.join('\n')).toContain('U2.L D8 9 10 11 12 13 14 15 on DQ 1 2 3 0 7 5 6 4')
    expect(loadBoard(description).ok).toBe(true)
  })

  it('are counted as the core’s pins do where these bear numbers too', async () => {
    const functions = Array.from({ length: 8 }, (_, k) => `DDR_D${15 - k}`)
    const { description } = await imported(layoutText([coreText(coreNets, functions), memory(netOf)]))
    const bits = description.memory.channels[0]?.lanes[0]?.bits ?? []
    expect(bits.map(({ coreBall }) => coreBall)).toEqual(['8', '7', '6', '5', '4', '3', '2', '1'])
  })

  it('are counted as the memory does where the nets number no whole byte', async () => {
    const doubled = (bit: number): string => `/mem/${bit < 12 ? 'A' : 'B'}_DQ${bit % 4}`
    const nets = Array.from({ length: 8 }, (_, k) => doubled(8 + k))
    const { description, untold } = await imported(layoutText([coreText(nets), memory(doubled)]))
    const [lane] = description.memory.channels[0]?.lanes ?? []
    expect(lane?.bits?.map(({ memoryBall }) => memoryBall)).toEqual(LOWER)
    expect(lane?.swaps).toBeUndefined()
    expect(untold.join('\n')).toContain('counted as the memory does in: U2.L')
  })
})

/** Where a ball of the upper lane lies in the file, for a memory at (60, 20). */
const ballAt = (k: number): string => {
  const ball = UPPER[k] ?? ''
  return `${(60 + (Number(ball.slice(1)) - 5) * 0.8).toFixed(4)} ${(20 + (ROWS.indexOf(ball.slice(0, 1)) - 7.5) * 0.8).toFixed(4)}`
}

describe('data nets through resistors', () => {
  const memoryNets = UPPER.map((_, k) => `/M${k}`)
  const coreNets = UPPER.map((_, k) => `/C${k}`)
  const memory = footprintText(
    'U2',
    balls96((ball) => (UPPER.includes(ball) ? memoryNets[UPPER.indexOf(ball)] : undefined)),
    { x: 60, y: 20 },
  )
  const expected = UPPER.map((memoryBall, k) => ({ memoryBall, coreBall: String(k + 1) }))

  it('are followed through one resistor each', async () => {
    const resistors = memoryNets.map((net, k) =>
      footprintText(
        `R${k + 1}`,
        [
          { number: '1', x: -0.5, y: 0, net },
          { number: '2', x: 0.5, y: 0, net: coreNets[k] ?? '' },
        ],
        { x: 40, y: 10 + k },
      ),
    )
    const { description } = await imported(layoutText([coreText(coreNets), memory, ...resistors]))
    expect(description.memory.channels[0]?.lanes[0]).toMatchObject({ name: 'U', bits: expected })
  })

  it('are followed through arrays, whose pads face each other around the package', async () => {
    const arrays = [0, 4].map((from) =>
      footprintText(`RN${from}`, [
        ...[0, 1, 2, 3].map((k): PadText => ({ number: `${k + 1}`, x: k, y: 0, net: memoryNets[from + k] ?? '' })),
        ...[0, 1, 2, 3].map((k): PadText => ({ number: `${8 - k}`, x: k, y: 1, net: coreNets[from + k] ?? '' })),
      ]),
    )
    const { description } = await imported(layoutText([coreText(coreNets), memory, ...arrays]))
    expect(description.memory.channels[0]?.lanes[0]?.bits).toEqual(expected)
  })

  it('follow tracks from ball to ball across the resistors', async () => {
    const resistors = memoryNets.map((net, k) =>
      footprintText(
        `R${k + 1}`,
        [
          { number: '1', x: 0.5, y: 0, net },
          { number: '2', x: -0.5, y: 0, net: coreNets[k] ?? '' },
        ],
        { x: 40, y: 20 },
      ),
    )
    const tracks = coreNets.flatMap((net, k) => [
      `(segment (start ${20 + k * 0.5} 20) (end 30 20) (width 0.1) (layer "F.Cu") (net ${k + 20}))`,
      `(segment (start 30 20) (end 39.5 20) (width 0.1) (layer "F.Cu") (net ${k + 20}))`,
      `(net ${k + 20} "${net}")`,
      `(net ${k + 40} "${memoryNets[k]}")`,
      `(segment (start 40.5 20) (end ${ballAt(k)}) (width 0.1) (layer "F.Cu") (net ${k + 40}))`,
    ])
    const ordered = [
      ...tracks.filter((form) => form.startsWith('(net')),
      ...tracks.filter((form) => !form.startsWith('(net')),
    ]
    const { description } = await imported(layoutText([...ordered, coreText(coreNets), memory, ...resistors]))
    const lane = description.memory.channels[0]?.lanes[0]
    // Straight along y = 80 on the board from the core to the resistor at (40, 80), then slanting to the ball.
    expect(lane?.corridor?.[0]?.y).toBe(80)
    expect(lane?.corridor?.some((point) => Math.hypot(point.x - 40.5, point.y - 80) < 0.11)).toBe(true)
    expect(lane?.corridorWidthMm).toBeGreaterThan(0)
  })
})

describe('a memory part whose pin functions name two channels', () => {
  it('gets the lanes of the channel that is connected and none of the other', async () => {
    const pads: PadText[] = [0, 1].flatMap((channel) =>
      Array.from({ length: 16 }, (_, bit): PadText => {
        const letter = channel === 0 ? 'A' : 'B'
        const number = `${letter}${bit + 1}`
        const pinFunction = `DQ${bit}_${letter}`
        const net = channel === 0 ? `/D${bit}` : `unconnected-(U7-${pinFunction}-Pad${number})`
        return { number, x: bit, y: channel, net, pinFunction }
      }),
    )
    const command = ['CK_t_A', 'CK_c_A', 'CA0_A', 'CA1_A', 'CKE_A', 'CS_A'].map(
      (pinFunction, k): PadText => ({ number: `C${k}`, x: k, y: 4, net: `/CA${k}`, pinFunction }),
    )
    const nets = Array.from({ length: 16 }, (_, k) => `/D${k}`)
    const { description, untold } = await imported(
      layoutText([coreText(nets), footprintText('U7', [...pads, ...command])]),
    )
    expect(description.memory.channels[0]?.lanes.map((lane) => lane.name)).toEqual(['A0', 'A1'])
    expect(untold.join('\n')).toContain('left out: U7.B0 and U7.B1')
  })
})

const pad = (number: string, net: string, pinFunction: string, pinType = 'input'): PadText => ({
  number,
  x: Number(number),
  y: 0,
  net,
  pinFunction,
  pinType,
})

const passive = (ref: string, first: string, second: string, value = ''): string =>
  footprintText(ref, [pad('1', first, '', 'passive'), pad('2', second, '', 'passive')], { value })

describe('rails', () => {
  it('are made by a converter through an inductor, and fed parts are those with a supply pin', async () => {
    const converter = footprintText('U5', [
      pad('1', '+12V', 'VIN'),
      pad('2', '/SW1', 'SW'),
      pad('3', 'GND', 'GND', 'power_in'),
    ])
    const load = footprintText('U6', [
      pad('1', '+1V8', 'VDD', 'power_in'),
      pad('2', '/X', 'IN'),
      pad('3', 'GND', 'VSS', 'power_in'),
    ])
    const tied = footprintText('U8', [
      pad('1', '+1V8', 'EN'),
      pad('2', '/X', 'OUT'),
      pad('3', 'GND', 'VSS', 'power_in'),
    ])
    const forms = [converter, load, tied, passive('L1', '/SW1', '+1V8', '2.2uH'), passive('C1', '+1V8', 'GND')]
    const { description } = await imported(layoutText(forms))
    const rail = description.rails.find((one) => one.name === '+1V8')
    expect(rail).toMatchObject({ nominalV: 1.8, stages: ['U5'], feeds: ['U6'] })
    expect(rail?.points).toMatchObject([{ part: 'C1', pad: '1' }])
    expect(description.parts.find((part) => part.ref === 'U5')?.kind).toBe('power-stage')
    expect(description.parts.find((part) => part.ref === 'L1')?.kind).toBe('inductor')
  })

  it('get volts from names that say them and from no others', async () => {
    const names = ['+3.3V', '+3V3', 'P0V85', 'VCC', '-12V', 'VDD_CORE', '/sheet/5V_USB', 'MEM_1V35']
    const loads = names.map((name, k) =>
      footprintText(`U${k + 1}`, [
        pad('1', name, 'VDD', 'power_in'),
        pad('2', name, 'VDD', 'power_in'),
        pad('3', 'GND', 'VSS', 'power_in'),
      ]),
    )
    const { description } = await imported(layoutText(loads))
    expect(description.rails.map((rail) => [rail.name, rail.nominalV])).toEqual([
      ['+3.3V', 3.3],
      ['+3V3', 3.3],
      ['P0V85', 0.85],
      ['VCC', undefined],
      ['-12V', undefined],
      ['VDD_CORE', undefined],
      ['/sheet/5V_USB', 5],
      ['MEM_1V35', 1.35],
    ])
  })

  it('leave out ground and signals about a rail', async () => {
    const names = ['GND', '/sheet/GNDA', 'AGND', 'VSS', '5V_PG', 'P1V8_EN', 'Net-(U1-VDD)', 'unconnected-(U1-VDD-Pad1)']
    const loads = names.map((name, k) =>
      footprintText(`U${k + 1}`, [pad('1', name, 'VDD', 'power_in'), pad('2', name, 'A'), pad('3', name, 'B')]),
    )
    const { description } = await imported(layoutText(loads))
    expect(description.rails).toEqual([])
  })
})

describe('the core', () => {
  it('is not told where no memory and no crystal tells it', async () => {
    const { description, untold } = await imported(layoutText([coreText(['/A', '/B'])]))
    expect(description.parts.map((part) => part.kind)).toEqual(['other'])
    expect(untold.join('\n')).toContain('Which part is the core could not be told')
  })
})
