/** One part from what two files say of it, and the names that one file has for the nets of the other. */
import { distance, someOf, say } from '../../base/index.ts'
import { groupedBy } from '../group.ts'
import type { PartPair } from './align.ts'
import type { PiecePad, PiecePart } from './pieces.ts'

/** Pads of one number nearer than this are one. */
const SAME_PAD_MM = 0.3

export interface JoinRules {
  /** Whether pads of the second file that the first doesn't have are added to a part that has pads. */
  readonly mayAdd: boolean
  /** Letters that the second file keeps of a net's name. */
  readonly netLetters?: number | undefined
}

export interface Joined {
  /** In the order of the pairs. */
  readonly parts: readonly PiecePart[]
  readonly untold: readonly string[]
}

/** What the base says counts; the other fills in. */
export function joinNets(pairs: readonly PartPair[], rules: JoinRules): Joined {
  const twins = pairs.map(({ base, other }) => twinsOf(base, other))
  const names = netNames(twins.flatMap(({ both }) => both))
  const contradicting = pairs.flatMap(({ base }, i) => {
    const wrong = (twins[i]?.both ?? []).filter(([pad, twin]) => contradicts(pad, twin, names, rules))
    return wrong.map(([pad]) => `${base.ref}.${pad.number}`)
  })
  const parts = pairs.map(({ base, other }, i) => {
    const { both = [], only = [] } = twins[i] ?? {}
    const renamed = (pad: PiecePad): PiecePad => ({ ...pad, net: renamedNet(pad.net, names) })
    const twinOf = new Map(both)
    const kept = base.pads.map((pad) => {
      const twin = twinOf.get(pad)
      return twin === undefined ? pad : filledPad(pad, renamed(twin))
    })
    const added = base.pads.length === 0 || rules.mayAdd ? only.map(renamed) : []
    return { ...filledPart(base, other), pads: [...kept, ...added] }
  })
  const untold =
    contradicting.length === 0
      ? []
      : [
          say('these pads are on different nets: {contradicting}; the first file counts.', {
            contradicting: someOf(contradicting, 8),
          }),
        ]
  return { parts, untold }
}

interface Twins {
  readonly both: readonly (readonly [PiecePad, PiecePad])[]
  readonly only: readonly PiecePad[]
}

/** Pads of one number at one place. A number that stands once on both needs no place. */
function twinsOf(base: PiecePart, other: PiecePart): Twins {
  const byNumber = groupedBy(base.pads, ({ number }) => number)
  const counts = new Map<string, number>()
  for (const { number } of other.pads) counts.set(number, (counts.get(number) ?? 0) + 1)
  const both: (readonly [PiecePad, PiecePad])[] = []
  const only: PiecePad[] = []
  for (const pad of other.pads) {
    const own = byNumber.get(pad.number) ?? []
    const isOnce = pad.number !== '' && own.length === 1 && counts.get(pad.number) === 1
    const twin = isOnce ? own[0] : own.find((one) => distance(one.at, pad.at) <= SAME_PAD_MM)
    if (twin === undefined) only.push(pad)
    else both.push([twin, pad])
  }
  return { both, only }
}

type NetNames = ReadonlyMap<string, string | undefined>

/** The base's name for each net of the other; undefined where its pads are on several. */
function netNames(both: readonly (readonly [PiecePad, PiecePad])[]): NetNames {
  const votes = new Map<string, Map<string, number>>()
  for (const [pad, twin] of both) {
    if (pad.net === undefined || twin.net === undefined) continue
    const own = votes.get(twin.net) ?? new Map<string, number>()
    votes.set(twin.net, own.set(pad.net, (own.get(pad.net) ?? 0) + 1))
  }
  return new Map(
    [...votes].map(([net, own]) => {
      const [first, second] = [...own].toSorted(([, a], [, b]) => b - a)
      const isClear = first !== undefined && (second === undefined || second[1] * 2 < first[1])
      return [net, isClear ? first[0] : undefined]
    }),
  )
}

const renamedNet = (net: string | undefined, names: NetNames): string | undefined =>
  net === undefined ? undefined : (names.get(net) ?? net)

function contradicts(pad: PiecePad, twin: PiecePad, names: NetNames, { netLetters }: JoinRules): boolean {
  if (pad.net === undefined || twin.net === undefined || pad.net === twin.net) return false
  if (netLetters !== undefined && plain(pad.net).slice(-netLetters) === plain(twin.net)) return false
  const name = names.get(twin.net)
  return name !== pad.net
}

/** Writers that cut names also write capitals, and a question mark for what such a file can't have. */
const plain = (net: string): string => net.toUpperCase().replaceAll(/[^!-~]/g, '?')

function filledPad(pad: PiecePad, twin: PiecePad): PiecePad {
  const sized = pad.widthMm > 0 ? pad : twin
  const isThrough = pad.access !== twin.access && pad.widthMm > 0 && twin.widthMm > 0
  return {
    ...pad,
    widthMm: sized.widthMm,
    lengthMm: sized.lengthMm,
    rotationDeg: sized.rotationDeg,
    isRound: sized.isRound,
    access: isThrough ? 'through' : sized.access,
    hole: pad.hole ?? twin.hole,
    net: pad.net ?? twin.net,
    signal: pad.signal ?? twin.signal,
  }
}

function filledPart(base: PiecePart, other: PiecePart): PiecePart {
  return {
    ref: other.ref.length > base.ref.length ? other.ref : base.ref,
    at: base.at ?? other.at,
    rotationDeg: base.rotationDeg ?? other.rotationDeg,
    side: base.side ?? other.side,
    value: base.value ?? other.value,
    packageName: base.packageName ?? other.packageName,
    heightMm: base.heightMm ?? other.heightMm,
    bodies: base.bodies.length > 0 ? base.bodies : other.bodies,
    courtyards: base.courtyards.length > 0 ? base.courtyards : other.courtyards,
    pads: base.pads,
  }
}
