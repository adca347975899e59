/** A Gerber file as a piece of a board: its edge, its parts, its holes or a copper layer, as the file's own function says. */
import { good, type Point, type Result, say } from '../../../base/index.ts'
import { groupedBy } from '../../group.ts'
import type { Side } from '../../schema.ts'
import { type NamedText } from '../text.ts'
import {
  emptyPart,
  emptyPiece,
  type Piece,
  type PieceCopper,
  type PieceDrill,
  type PiecePad,
  type PiecePart,
  type PieceStroke,
} from '../pieces.ts'
import { type Attributes, endsInside } from './attributes.ts'
import type { Drawn, Flash, Plot } from './objects.ts'
import { plotOf } from './plot.ts'

/** Whether a text begins as Gerber files do: with a format of numbers, a unit or attributes of the file. */
export function looksLikeGerber(text: string): boolean {
  const start = text.slice(0, 20_000)
  if (!/^(\*|%|G0?4|G[0-9]|D\d)/.test(start)) return false
  return /%\s*(FS[LTD]?[AI]?X\d\dY\d\d|MO(MM|IN)|TF\.)|^G0?4\s*#@!\s*TF\./m.test(start)
}

/** @returns faults by line; a file of any other function tells nothing of a board, which is no fault */
export function readGerber({ name, text }: NamedText): Result<Piece> {
  const plot = plotOf(name, text)
  if (!plot.ok) return plot
  const [role = '', layer = '', place = ''] = plot.value.file.get('.FileFunction') ?? []
  const empty = {
    ...emptyPiece(name, 'gerber'),
    untold: plot.value.repeats
      ? [say('{name} repeats blocks in rows, as a panel does; only the first of each is read.', { name })]
      : [],
  }
  const where = { order: Number(/^L(\d{1,4})$/.exec(layer)?.[1] ?? 0), side: sideOf(place) }
  if (role === 'Profile') return good({ ...empty, outline: outlineOf(plot.value) })
  if (role === 'Component') return good({ ...empty, parts: componentsOf(plot.value, where.side ?? 'top') })
  if (role === 'Plated' || role === 'NonPlated') return good({ ...empty, ...drilledBy(plot.value, role === 'Plated') })
  if (role === 'Copper')
    return good({ ...empty, ...copperOf(plot.value, { name: layer, thicknessMm: undefined, ...where }) })
  return good(empty)
}

/** Flashes are round holes, lines are slots; holes that end inside the board are left out. */
function drilledBy(plot: Plot, isPlated: boolean): Pick<Piece, 'drills'> {
  if (endsInside(plot.file.get('.FileFunction') ?? [])) return { drills: [] }
  const tool = ({ shape }: Flash['aperture']): number => Math.min(shape.width, shape.length)
  return {
    drills: [
      ...plot.flashes.map(({ at, aperture }): PieceDrill => ({ path: [at], diameterMm: tool(aperture), isPlated })),
      ...plot.drawn.map(({ points, aperture }): PieceDrill => ({ path: points, diameterMm: tool(aperture), isPlated })),
    ],
  }
}

function sideOf(place: string): Side | undefined {
  if (/^top$/i.test(place)) return 'top'
  return /^bot/i.test(place) ? 'bottom' : undefined
}

const closed = (points: readonly Point[]): PieceStroke => ({ points, isClosed: true })

function outlineOf({ drawn, regions }: Plot): PieceStroke[] {
  return [
    ...drawn.map(({ points }): PieceStroke => circleOf(points) ?? { points, isClosed: false }),
    ...regions.map(({ points }) => closed(points)),
  ]
}

/** A full circle: a run that comes back to its beginning, all corners equally far from their middle. */
function circleOf(points: readonly Point[]): PieceStroke | undefined {
  const [first, last] = [points[0], points.at(-1)]
  if (first === undefined || last === undefined || points.length < 12) return undefined
  if (Math.hypot(first.x - last.x, first.y - last.y) > 1e-6) return undefined
  const corners = points.slice(0, -1)
  const xs = corners.map(({ x }) => x)
  const ys = corners.map(({ y }) => y)
  const least = (values: readonly number[]): number => values.reduce((a, b) => Math.min(a, b), Infinity)
  const most = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b), -Infinity)
  const at = { x: (least(xs) + most(xs)) / 2, y: (least(ys) + most(ys)) / 2 }
  const radiusMm = (most(xs) - least(xs)) / 2
  const isRound = corners.every(({ x, y }) => Math.abs(Math.hypot(x - at.x, y - at.y) - radiusMm) < 0.002)
  return isRound ? { points: corners, isClosed: true, circle: { at, radiusMm } } : undefined
}

const first = (attributes: Attributes, name: string): string | undefined => attributes.get(name)?.[0]
const functionOf = ({ aperture }: Flash | Drawn): readonly string[] => aperture.attributes.get('.AperFunction') ?? []

/** Parts of a component layer: middle, turn, value and package, outlines and pins. */
function componentsOf(plot: Plot, side: Side): PiecePart[] {
  const refOf = ({ attributes }: { readonly attributes: Attributes }): string => first(attributes, '.C') ?? ''
  const mains = plot.flashes.filter((flash) => functionOf(flash)[0] === 'ComponentMain')
  const pins = groupedBy(
    plot.flashes.filter((flash) => functionOf(flash)[0] === 'ComponentPin'),
    ({ attributes }) => first(attributes, '.P') ?? '',
  )
  const drawn = groupedBy(plot.drawn, refOf)
  const regions = groupedBy(plot.regions, refOf)
  return mains.map((main) => {
    const ref = refOf(main)
    const outlines = (kind: string): PieceStroke[] => [
      ...(drawn.get(ref) ?? []).flatMap((line) => (functionOf(line)[1] === kind ? [closed(line.points)] : [])),
      ...(regions.get(ref) ?? []).flatMap(({ points, apertureAttributes }) =>
        apertureAttributes.get('.AperFunction')?.[1] === kind ? [closed(points)] : [],
      ),
    ]
    return {
      ...named(main, ref, side),
      bodies: outlines('Body'),
      courtyards: outlines('Courtyard'),
      pads: (pins.get(ref) ?? []).map((pin) => pinOf(pin, main, side)),
    }
  })
}

/**
 * A bottom part's turn counts from its top drawing mirrored about the x axis (.CRot); ours from the one mirrored left and right,
 * which is half a turn on.
 */
function named({ at, attributes }: Flash, ref: string, side: Side): PiecePart {
  const turn = Number(first(attributes, '.CRot') ?? Number.NaN)
  const heightMm = Number(first(attributes, '.CHgt') ?? Number.NaN)
  return {
    ...emptyPart(ref),
    at,
    rotationDeg: Number.isFinite(turn) ? (turn + (side === 'bottom' ? 180 : 0)) % 360 : undefined,
    side,
    value: first(attributes, '.CVal'),
    packageName: packageOf(attributes),
    heightMm: heightMm > 0 && heightMm < 200 ? heightMm : undefined,
  }
}

/** The name of the package, else of the footprint, which its library says more about. */
function packageOf(attributes: Attributes): string | undefined {
  const [footprint, library] = [first(attributes, '.CFtp'), first(attributes, '.CLbN')]
  const inLibrary = footprint === undefined || library === undefined ? footprint : `${library}:${footprint}`
  return first(attributes, '.CPgN') ?? first(attributes, '.CPkg') ?? inLibrary
}

/** A pin's place only: the flash is a mark, not the pad. */
function pinOf({ at, attributes }: Flash, main: Flash, side: Side): PiecePad {
  const mount = first(main.attributes, '.CMnt')
  const [, number = '', signal] = attributes.get('.P') ?? []
  return {
    number,
    at,
    widthMm: 0,
    lengthMm: 0,
    rotationDeg: 0,
    isRound: true,
    access: mount === 'TH' || mount === 'Pressfit' ? 'through' : side,
    hole: undefined,
    net: netOf(attributes),
    signal,
  }
}

function netOf(attributes: Attributes): string | undefined {
  const net = first(attributes, '.N')
  return net === undefined || net === '' || net === 'N/C' ? undefined : net
}

/** Pads, tracks, vias and filled areas of one copper layer, as far as they say to which part or net they belong. */
function copperOf(plot: Plot, layer: PieceCopper): Pick<Piece, 'copper' | 'parts' | 'tracks' | 'vias' | 'pours'> {
  const pads = plot.flashes.filter(({ attributes }) => attributes.has('.P'))
  const byRef = groupedBy(pads, ({ attributes }) => first(attributes, '.P') ?? '')
  const parts = [...byRef].map(([ref, own]): PiecePart => {
    const ownPads = own.map((pad) => padOf(pad, layer.side))
    return {
      ...emptyPart(ref),
      side: ownPads.some(({ access }) => access !== 'through') ? layer.side : undefined,
      pads: ownPads,
    }
  })
  const tracks = plot.drawn.flatMap(({ points, aperture, attributes }) => {
    const net = netOf(attributes)
    return net === undefined ? [] : [{ net, layer: layer.name, points, widthMm: aperture.shape.width }]
  })
  const vias = plot.flashes.flatMap((flash) => {
    const net = functionOf(flash)[0] === 'ViaPad' ? netOf(flash.attributes) : undefined
    return net === undefined ? [] : [{ net, at: flash.at, sizeMm: flash.aperture.shape.width, layers: [layer.name] }]
  })
  const pours = plot.regions.flatMap(({ points, attributes }) => {
    const net = netOf(attributes)
    return net === undefined ? [] : [{ net, layer: layer.name, points }]
  })
  return { copper: [layer], parts, tracks, vias, pours }
}

function padOf(flash: Flash, side: Side | undefined): PiecePad {
  const { at, aperture, attributes } = flash
  const { width, length, rotationDeg, isRound } = aperture.shape
  const [, number = '', signal] = attributes.get('.P') ?? []
  const isThrough = side === undefined || functionOf(flash)[0] === 'ComponentPad'
  return {
    number,
    at,
    widthMm: width,
    lengthMm: length,
    rotationDeg,
    isRound,
    access: isThrough ? 'through' : side,
    hole: undefined,
    net: netOf(attributes),
    signal,
  }
}
