/** Signals and nets of a part's balls, and what they tell: which ball of the memory, and of the core, carries which data bit. */
import { bad, good, type Result, someOf, say } from '../../base/index.ts'
import { ballsOf } from '../ball-field.ts'
import { laneIdOf, lanePart } from '../lanes.ts'
import { loadBoard } from '../load.ts'
import { packageOutlines } from '../packages.ts'
import type { BoardDescription, LaneDescription, Pad, Part } from '../schema.ts'
import type { EditOf } from './edits.ts'
import { withLanes } from './lanes.ts'
import { partsNamed } from './look-up.ts'
import { withFields } from './parts.ts'

/**
 * Gives balls of a part their signals and nets. Of a memory whose data signals are as many as its lanes have bits, they are
 * put to the lanes in order: by channel letter, then by number. Where balls of core and memory share a net, the core's ball
 * is put to the same bit. Refuses an unknown part, one without balls, and balls that it does not have.
 */
export function nameBalls(board: BoardDescription, { ref, balls }: EditOf<'name-balls'>): Result<BoardDescription> {
  const parts = partsNamed(board, [ref])
  if (!parts.ok) return parts
  const [part] = parts.value
  if (part === undefined) return good(board)
  const pads = padsOf(part)
  if (pads.length === 0)
    return bad({
      path: ref,
      found: say('a part without balls'),
      expected: say('a part with a package or pads of its own'),
    })
  const known = new Set(pads.map(({ number }) => number))
  const strange = balls.map(({ ball }) => ball).filter((ball) => !known.has(ball))
  if (strange.length > 0)
    return bad({
      path: ref,
      found: say('{strange}, which {ref} does not have', { strange: someOf(strange, 5), ref }),
      expected: say('balls of {package}', { package: part.package ?? say('its own pads') }),
      todo: say('Choose its package first, or correct the table.'),
    })
  const named = new Map(balls.map((ball) => [ball.ball, ball]))
  const next: Part = {
    ...part,
    pads: pads.map((pad) => {
      const told = named.get(pad.number)
      return told === undefined ? pad : withFields(pad, { signal: told.signal, net: told.net })
    }),
  }
  const withPads = { ...board, parts: board.parts.map((each) => (each === part ? next : each)) }
  return good(withCoreBalls(part.kind === 'memory' ? withMemoryBalls(withPads, next) : withPads))
}

/** Pads of its own, else the balls of its package. */
function padsOf(part: Part): readonly Pad[] {
  if (part.pads !== undefined) return part.pads
  const outline = packageOutlines.get(part.package ?? '')
  if (outline === undefined) return []
  return ballsOf(outline).map(({ name, at }) => ({
    number: name,
    at,
    widthMm: outline.ballDiameterMm,
    lengthMm: outline.ballDiameterMm,
    round: true,
  }))
}

/** Data signals as data sheets write them: DQ3, DQ3_A, A_DQ3, DQA3. */
const DATA = /^(?:([A-H]|CH[A-H0-9])[_.]?)?DQ_?([A-H])?_?(\d{1,3})(?:[_.]([A-H]|[0-9]))?$/i

function dataBalls({ pads = [] }: Part): string[] {
  return pads
    .flatMap(({ number, signal }) => {
      const [, before = '', inside = '', digits, after = ''] = DATA.exec(signal?.trim() ?? '') ?? []
      if (digits === undefined) return []
      return [{ ball: number, channel: `${before}${inside}${after}`.toUpperCase(), dq: Number(digits) }]
    })
    .toSorted((a, b) => (a.channel < b.channel ? -1 : a.channel > b.channel ? 1 : a.dq - b.dq))
    .map(({ ball }) => ball)
}

function withMemoryBalls(board: BoardDescription, part: Part): BoardDescription {
  const balls = dataBalls(part)
  const bitCounts = bitCountsOn(board, part.ref)
  const all = [...bitCounts.values()].reduce((sum, bits) => sum + bits, 0)
  if (balls.length === 0 || balls.length !== all) return board
  const own = new Map<string, readonly string[]>()
  let first = 0
  for (const [id, bits] of bitCounts) {
    own.set(id, balls.slice(first, first + bits))
    first += bits
  }
  const idOf = new Map(
    board.memory.channels.flatMap((channel) =>
      channel.lanes.map((lane) => [lane, laneIdOf(lanePart(channel, lane), lane)] as const),
    ),
  )
  return withLanes(board, (lane) => {
    const dq = own.get(idOf.get(lane) ?? '')
    if (dq === undefined) return lane
    const bits = dq.map((ball, bit) => {
      const coreBall = lane.bits?.[bit]?.coreBall
      return { memoryBall: dq[lane.swaps?.[bit] ?? bit] ?? ball, ...(coreBall === undefined ? {} : { coreBall }) }
    })
    return withFields(lane, { bits, swaps: null })
  })
}

/** Data bits of each lane of a part, in the order of the board; a byte each where the board has faults. */
function bitCountsOn(board: BoardDescription, ref: string): ReadonlyMap<string, number> {
  const loaded = loadBoard(board)
  const lanes = board.memory.channels.flatMap((channel) =>
    channel.lanes.flatMap((lane) => (lanePart(channel, lane) === ref ? [laneIdOf(ref, lane)] : [])),
  )
  return new Map(lanes.map((id) => [id, (loaded.ok ? loaded.value.laneById.get(id)?.bitCount : undefined) ?? 8]))
}

/** Where a ball of the memory and one of the core share a net, they carry one bit. */
function withCoreBalls(board: BoardDescription): BoardDescription {
  const core = board.parts.find(({ kind }) => kind === 'core')
  const ballOfNet = new Map<string, string | undefined>()
  for (const { net, number } of core?.pads ?? [])
    if (net !== undefined) ballOfNet.set(net, ballOfNet.has(net) ? undefined : number)
  if (ballOfNet.size === 0) return board
  const nets = new Map(
    board.parts.map(({ ref, pads }) => [ref, new Map(pads?.map(({ number, net }) => [number, net]))] as const),
  )
  const channels = board.memory.channels.map((channel) => ({
    ...channel,
    lanes: channel.lanes.map((lane): LaneDescription => {
      const ofPart = nets.get(lanePart(channel, lane))
      if (lane.bits === undefined || ofPart === undefined) return lane
      const bits = lane.bits.map((bit) => {
        const coreBall = ballOfNet.get(ofPart.get(bit.memoryBall) ?? '')
        return coreBall === undefined ? bit : { ...bit, coreBall }
      })
      return { ...lane, bits }
    }),
  }))
  return { ...board, memory: { ...board.memory, channels } }
}
