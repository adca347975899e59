/** Several files of one board as one: edge from one, parts from another, nets from a third; what contradicts is said. */
import { boxOf, distance, joined, plainly, type Point, someOf, say } from '../../base/index.ts'
import { groupedBy } from '../group.ts'
import { type Alignment, alignmentOf, type PartPair } from './align.ts'
import { joinNets } from './join-pads.ts'
import { pairParts, splitCutParts } from './pair.ts'
import { drillAlignment, withPadHoles } from './pad-holes.ts'
import {
  type BoardFormat,
  emptyPiece,
  type Piece,
  type PieceCopper,
  type PieceDrill,
  type PiecePart,
  type PieceStroke,
} from './pieces.ts'

/** What tells most comes first, and the others are laid on it. */
const RANK: readonly (BoardFormat | undefined)[] = ['ipc2581', 'gerber', 'netlist', 'placements', 'drill']
/** Places of one part that are further apart contradict each other, mm. Origins of connectors are often their first pin. */
const APART_MM = 1

/** @param pieces at least one */
export function mergePieces(pieces: readonly Piece[]): Piece {
  const families = [...groupedBy(pieces, ({ format }) => format).values()].map(joinFamily)
  const [first, ...rest] = families.toSorted((a, b) => RANK.indexOf(a.format) - RANK.indexOf(b.format))
  if (first === undefined) return emptyPiece('', undefined)
  if (rest.length === 0) return withPadHoles(first)
  const merged = withPadHoles(rest.reduce(layOn, first))
  return { ...merged, untold: [...sourcesOf([first, ...rest]), ...merged.untold] }
}

/** Files of one format share their origin; what several of them say of a part is put together. */
function joinFamily(pieces: readonly Piece[]): Piece {
  const [first, ...rest] = pieces
  if (first === undefined) return emptyPiece('', undefined)
  return rest.reduce(joinOnto, first)
}

function joinOnto(base: Piece, other: Piece): Piece {
  const pairs = new Map(pairParts(base, other).map((pair) => [pair.base, pair.other]))
  const paired = new Set(pairs.values())
  return {
    ...emptyPiece([...new Set([base.from, other.from])].join(', '), base.format),
    outline: [...base.outline, ...other.outline],
    copper: stacked([...base.copper, ...other.copper]),
    thicknessMm: base.thicknessMm ?? other.thicknessMm,
    parts: [
      ...base.parts.map((part) => {
        const more = pairs.get(part)
        return more === undefined ? part : (joinNets([{ base: part, other: more }], { mayAdd: true }).parts[0] ?? part)
      }),
      ...other.parts.filter((part) => !paired.has(part)),
    ],
    tracks: [...base.tracks, ...other.tracks],
    vias: [...base.vias, ...other.vias],
    pours: [...base.pours, ...other.pours],
    drills: [...base.drills, ...other.drills],
    refLetters: base.refLetters,
    netLetters: base.netLetters ?? other.netLetters,
    untold: [...new Set([...base.untold, ...other.untold])],
  }
}

/** From the top down, each layer once. */
function stacked(copper: readonly PieceCopper[]): PieceCopper[] {
  const byOrder = new Map(copper.map((layer) => [layer.order, layer]))
  return [...byOrder.values()].toSorted((a, b) => a.order - b.order)
}

const longest = <T>(a: readonly T[], b: readonly T[]): readonly T[] => (b.length > a.length ? b : a)

/** Lays another family on what is known so far. */
function layOn(known: Piece, other: Piece): Piece {
  const alignment =
    other.parts.length === 0 && other.drills.length > 0
      ? drillAlignment(known, other)
      : alignmentOf(known, other, pairParts(known, other))
  const moved = { ...other, parts: other.parts.map((part) => movedPart(part, alignment)) }
  const { parts, split } = splitCutParts(known, moved)
  const base = { ...known, parts }
  const pairs = pairParts(base, moved)
  const laid = joinNets(pairs, { mayAdd: false, netLetters: other.netLetters })
  const byBase = new Map(pairs.map((pair, i) => [pair.base, laid.parts[i] ?? pair.base]))
  const paired = new Set(pairs.map((pair) => pair.other))
  const alone = moved.parts.filter((part) => !paired.has(part))
  return {
    ...base,
    outline: base.outline.length > 0 ? base.outline : other.outline.map((stroke) => movedStroke(stroke, alignment)),
    copper: longest(base.copper, other.copper),
    thicknessMm: base.thicknessMm ?? other.thicknessMm,
    drills: [...base.drills, ...other.drills.map((drill) => movedDrill(drill, alignment))],
    parts: [...base.parts.map((part) => byBase.get(part) ?? part), ...alone],
    refLetters: known.parts.length === 0 ? other.refLetters : other.parts.length === 0 ? known.refLetters : undefined,
    untold: [
      ...base.untold,
      ...other.untold,
      ...sayAlignment(base, other, alignment),
      ...sayMissing(base, other, { pairs, alone }),
      ...(split.length === 0
        ? []
        : [
            say('{from} cuts references, so pads of these parts were told apart by the nearest place: {split}.', {
              from: base.from,
              split: someOf(split),
            }),
          ]),
      ...sayContradictions(base, other, pairs),
      ...laid.untold.map((words) => say('{one} and {other}: {words}', { one: base.from, other: other.from, words })),
    ],
  }
}

function movedPart(part: PiecePart, alignment: Alignment): PiecePart {
  const move = (point: Point): Point => alignment.move(point, part)
  const stroke = (one: PieceStroke): PieceStroke => ({ ...one, points: one.points.map(move) })
  return {
    ...part,
    at: part.at === undefined ? undefined : move(part.at),
    pads: part.pads.map((pad) => ({ ...pad, at: move(pad.at) })),
    bodies: part.bodies.map(stroke),
    courtyards: part.courtyards.map(stroke),
  }
}

const movedDrill = (drill: PieceDrill, alignment: Alignment): PieceDrill => ({
  ...drill,
  path: drill.path.map((point) => alignment.move(point, undefined)),
})

function movedStroke(stroke: PieceStroke, alignment: Alignment): PieceStroke {
  const { circle, ...rest } = stroke
  return {
    ...rest,
    points: stroke.points.map((point) => alignment.move(point, undefined)),
    ...(circle === undefined
      ? {}
      : { circle: { at: alignment.move(circle.at, undefined), radiusMm: circle.radiusMm } }),
  }
}

const familySaid = (what: string): string =>
  say('{what, select, edge {edge} places {places} pads {pads} holes {holes} other {nets}}', { what })

/** `The board is put together: edge from a; pads and nets from b.` */
function sourcesOf(families: readonly Piece[]): string[] {
  const told: readonly (readonly [string, (piece: Piece) => boolean])[] = [
    ['edge', ({ outline }) => outline.length > 0],
    ['places', ({ parts }) => parts.some(({ at }) => at !== undefined)],
    ['pads', ({ parts }) => parts.some(({ pads }) => pads.length > 0)],
    ['holes', ({ drills }) => drills.length > 0],
    ['nets', ({ parts }) => parts.some(({ pads }) => pads.some(({ net }) => net !== undefined))],
  ]
  const sources = told.flatMap(([what, has]) => {
    const from = families.find(has)?.from
    return from === undefined ? [] : [{ what, from }]
  })
  const said = [...groupedBy(sources, ({ from }) => from)].map(([from, own]) =>
    say('{own} from {from}', { own: joined(own.map(({ what }) => familySaid(what))), from }),
  )
  return [say('The board is put together: {said}.', { said: said.join('; ') })]
}

const mm = (value: number): string => plainly(Number(value.toFixed(2)))

function sayAlignment(base: Piece, other: Piece, { by, offset, mirror, fitting, compared }: Alignment): string[] {
  if (by === 'nothing')
    return compared === 0
      ? [
          say('Nothing tells how {one} lies to {other}; both are taken to count from one origin.', {
            one: other.from,
            other: base.from,
          }),
        ]
      : [
          say(
            "Places in {one} fit those in {other} for {fitting} of {compared} only; perhaps they aren't of one board. Both are taken to count from one origin.",
            { one: other.from, other: base.from, fitting, compared },
          ),
        ]
  const isMoved = offset.x !== 0 || offset.y !== 0
  const way = say('by {x}, {y} mm', { x: mm(offset.x), y: mm(offset.y) })
  if (by === 'edge')
    return [
      isMoved
        ? say('{from} was moved {way}, as its places then lie on the board.', { from: other.from, way })
        : say('{one} and {other} are taken to count from one origin, as all places lie on the board so.', {
            one: other.from,
            other: base.from,
          }),
    ]
  return [
    ...(isMoved
      ? [
          say('{from} counts from another origin; it was moved {way}, where {fitting} of {compared} places fit.', {
            from: other.from,
            way,
            fitting,
            compared,
          }),
        ]
      : []),
    ...(mirror === 'none'
      ? []
      : [
          say('{from} has {value}; they were turned back.', {
            from: other.from,
            value:
              mirror === 'bottom parts'
                ? say('bottom parts mirrored left and right')
                : mirror === 'up and down'
                  ? say('up and down mirrored')
                  : say('left and right mirrored'),
          }),
        ]),
  ]
}

function sayMissing(
  base: Piece,
  other: Piece,
  { pairs, alone }: { readonly pairs: readonly PartPair[]; readonly alone: readonly PiecePart[] },
): string[] {
  const known = new Set(pairs.map((pair) => pair.base))
  const missing = base.parts.filter((part) => !known.has(part))
  const differing = (parts: readonly PiecePart[], where: string, not: string): string[] =>
    parts.length === 0
      ? []
      : [
          say('In {where} and not in {not}: {parts}.', {
            where,
            not,
            parts: someOf(parts.map(({ ref }) => ref || say('a part without a reference'))),
          }),
        ]
  if (base.parts.length === 0 || other.parts.length === 0) return []
  return [...differing(missing, base.from, other.from), ...differing(alone, other.from, base.from)]
}

function sayContradictions(base: Piece, other: Piece, pairs: readonly PartPair[]): string[] {
  const sides = pairs.filter(
    (pair) => pair.base.side !== undefined && pair.other.side !== undefined && pair.base.side !== pair.other.side,
  )
  const apart = pairs.filter((pair) => isApart(pair))
  const refs = (found: readonly PartPair[]): string => someOf(found.map((pair) => pair.base.ref))
  return [
    ...(sides.length === 0
      ? []
      : [
          say('{one} and {other} put these parts on different sides: {sides}; the first counts.', {
            one: base.from,
            other: other.from,
            sides: refs(sides),
          }),
        ]),
    ...(apart.length === 0
      ? []
      : [
          say(
            '{one} and {other} put {parts, plural, one {# part} other {# parts}} more than {apartMm} mm apart: {apart}; the first counts.',
            { one: base.from, other: other.from, parts: apart.length, apartMm: APART_MM, apart: refs(apart) },
          ),
        ]),
  ]
}

/** A place contradicts another place, and a box of pads that it lies far from. */
function isApart({ base, other }: PartPair): boolean {
  if (base.at !== undefined && other.at !== undefined) return distance(base.at, other.at) > APART_MM
  const [at, pads] = base.at === undefined ? [other.at, base.pads] : [base.at, other.pads]
  if (at === undefined || pads.length === 0) return false
  const box = boxOf(pads.map((pad) => pad.at))
  return (
    at.x < box.minX - APART_MM || at.x > box.maxX + APART_MM || at.y < box.minY - APART_MM || at.y > box.maxY + APART_MM
  )
}
