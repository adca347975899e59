/** One step of an IPC-2581 file, which is a board: its edge, parts, packages and what its copper layers draw. */
import type { Point } from '../../../base/index.ts'
import type { Side } from '../../schema.ts'
import type { PiecePad, PieceStroke } from '../pieces.ts'
import { type Dictionary, isCopper } from './dictionary.ts'
import { childOf, childrenOf, cornersOf, lengthOf, lineOf, pointAt, type Shape, shapeIn, within } from './shapes.ts'
import type { XmlElement } from './xml.ts'

export interface Component {
  readonly ref: string
  readonly packageName: string
  readonly part: string | undefined
  readonly side: Side | undefined
  readonly at: Point
  readonly rotationDeg: number
  readonly isMirrored: boolean
  readonly isThrough: boolean
  readonly heightMm: number | undefined
}

export interface Package {
  readonly bodies: readonly (readonly Point[])[]
  readonly outlines: readonly (readonly Point[])[]
  readonly heightMm: number | undefined
  readonly pins: readonly { readonly number: string; readonly at: Point; readonly shape: Shape | undefined }[]
}

interface LaidPad {
  readonly ref: string
  readonly pad: PiecePad
  readonly layers: Set<string>
}

/** What a set says of its pads. */
interface PadSet {
  readonly net: string | undefined
  readonly layer: string
  readonly isVia: boolean
  /** Name of a padstack. */
  readonly geometry: string | undefined
}

const NO_NET = /^(no[_ -]?net|n\/c|nc)?$/i
const LINES: ReadonlySet<string> = new Set(['Line', 'Polyline', 'Arc'])
const POLYGONS: ReadonlySet<string> = new Set(['Polygon'])

export class Step {
  readonly outline: PieceStroke[] = []
  readonly packages = new Map<string, Package>()
  readonly components: Component[] = []
  /** By part, pin and place, since a through pad is drawn on every layer. */
  readonly pads = new Map<string, LaidPad>()
  readonly tracks: { net: string; layer: string; points: readonly Point[]; widthMm: number }[] = []
  readonly vias: { net: string; at: Point; sizeMm: number; layers: string[] }[] = []
  readonly pours: { net: string; layer: string; points: readonly Point[] }[] = []
  readonly holes: { at: Point; diameterMm: number; isPlated: boolean }[] = []
  private readonly padstacks = new Map<string, ReadonlyMap<string, Shape>>()
  private hasProfile = false
  private readonly dictionary: Dictionary

  constructor(dictionary: Dictionary) {
    this.dictionary = dictionary
  }

  take(element: XmlElement, layer: string): void {
    if (element.name === 'Profile') this.addProfile(element)
    else if (element.name === 'Package') this.addPackage(element)
    else if (element.name === 'PadStackDef') this.addPadstack(element)
    else if (element.name === 'Component') this.addComponent(element)
    else if (element.name === 'LogicalNet') this.addLogicalNet(element)
    else if (element.name === 'PhyNet') this.addPhysicalNet(element)
    else if (element.name === 'Set') this.addSet(element, layer)
  }

  private addProfile(profile: XmlElement): void {
    const { mm } = this.dictionary
    for (const polygon of profile.children)
      if (polygon.name === 'Polygon' || polygon.name === 'Cutout')
        this.outline.push({ points: cornersOf(polygon, mm), isClosed: true })
    this.hasProfile = this.outline.length > 0
  }

  private addPackage(element: XmlElement): void {
    const { mm, shapes } = this.dictionary
    const polygons = (from: XmlElement | undefined): Point[][] =>
      within(from, POLYGONS).map((polygon) => cornersOf(polygon, mm))
    const outlines = childrenOf(element, 'Outline').flatMap(polygons)
    const drawing = childOf(element, 'AssemblyDrawing')
    const bodies = drawing === undefined ? [] : childrenOf(drawing, 'Outline').flatMap(polygons)
    const pins = childrenOf(element, 'Pin').map((pin) => {
      const at = childOf(pin, 'Location') ?? pin
      return {
        number: pin.attributes['number'] ?? '',
        at: pointAt(at, mm),
        shape: shapeRef(pin, shapes) ?? shapeIn(pin, mm),
      }
    })
    this.packages.set(element.attributes['name'] ?? '', {
      bodies,
      outlines,
      pins,
      heightMm: lengthOf(element, 'height', mm),
    })
  }

  private addPadstack(element: XmlElement): void {
    const { mm, shapes } = this.dictionary
    const byLayer = childrenOf(element, 'PadstackPadDef').flatMap((pad) => {
      const shape = shapeRef(pad, shapes) ?? shapeIn(pad, mm)
      return shape === undefined ? [] : [[pad.attributes['layerRef'] ?? '', shape] as const]
    })
    this.padstacks.set(element.attributes['name'] ?? '', new Map(byLayer))
  }

  private addComponent(element: XmlElement): void {
    const { mm } = this.dictionary
    const { refDes = '', packageRef = '', part, layerRef = '', mountType = '' } = element.attributes
    const turn = childOf(element, 'Xform')
    this.components.push({
      ref: refDes,
      packageName: packageRef,
      part,
      side: this.dictionary.sideOf(layerRef),
      at: pointAt(childOf(element, 'Location'), mm),
      rotationDeg: (lengthOf(turn, 'rotation', 1) ?? 0) % 360,
      isMirrored: turn?.attributes['mirror'] === 'true',
      isThrough: /^TH/i.test(mountType),
      heightMm: lengthOf(element, 'height', mm),
    })
  }

  private addLogicalNet(element: XmlElement): void {
    for (const { attributes } of childrenOf(element, 'PinRef'))
      this.dictionary.netOfPin.set(
        `${attributes['componentRef']} ${attributes['pin']}`,
        element.attributes['name'] ?? '',
      )
  }

  private addPhysicalNet(element: XmlElement): void {
    const { mm, netAt } = this.dictionary
    for (const point of childrenOf(element, 'PhyNetPoint'))
      netAt.set(placeKey(pointAt(point, mm)), element.attributes['name'] ?? '')
  }

  private addSet(set: XmlElement, layer: string): void {
    const named = set.attributes['net'] ?? ''
    const net = NO_NET.test(named) ? undefined : named
    const kind = this.dictionary.layers.get(layer)
    if (kind?.kind === 'BOARD_OUTLINE') return this.addOutline(set)
    for (const child of set.children) {
      if (child.name === 'Hole') this.addHole(child)
      else if (child.name === 'Pad' && isCopper(kind))
        this.addPad(child, {
          net,
          layer,
          isVia: set.attributes['padUsage'] === 'VIA',
          geometry: set.attributes['geometry'],
        })
      else if (child.name === 'Features' && net !== undefined && isCopper(kind)) this.addFeatures(child, net, layer)
    }
  }

  /** Lines only where no profile tells the edge; round cut-outs always, which some writers leave out of the profile. */
  private addOutline(set: XmlElement): void {
    const { mm, shapes } = this.dictionary
    for (const features of childrenOf(set, 'Features')) {
      const offset = pointAt(childOf(features, 'Location'), mm)
      const circle = shapeRef(features, shapes)
      if (circle?.isRound === true) this.outline.push(roundEdge(offset, circle.widthMm))
      if (this.hasProfile) continue
      for (const line of within(features, LINES))
        this.outline.push({ points: moved(lineOf(line, mm), offset), isClosed: false })
    }
  }

  private addHole(hole: XmlElement): void {
    const { mm } = this.dictionary
    const diameterMm = lengthOf(hole, 'diameter', mm) ?? 0
    const isPlated = hole.attributes['platingStatus'] !== 'NONPLATED'
    if (diameterMm > 0) this.holes.push({ at: pointAt(hole, mm), diameterMm, isPlated })
  }

  private addPad(pad: XmlElement, { net, layer, isVia, geometry }: PadSet): void {
    const { mm, shapes } = this.dictionary
    const at = pointAt(childOf(pad, 'Location'), mm)
    const stack = this.padstacks.get(pad.attributes['padstackDefRef'] ?? geometry ?? '')
    const shape = shapeRef(pad, shapes) ?? shapeIn(pad, mm) ?? stack?.get(layer)
    const turn = lengthOf(childOf(pad, 'Xform'), 'rotation', 1) ?? 0
    const pins = childrenOf(pad, 'PinRef')
    if (pins.length === 0 && isVia && net !== undefined)
      this.vias.push({ net, at, sizeMm: shape?.widthMm ?? 0, layers: [layer] })
    for (const { attributes } of pins) {
      const { componentRef: ref = '', pin: number = '' } = attributes
      const key = `${ref} ${number} ${placeKey(at)}`
      const known = this.pads.get(key)
      known?.layers.add(layer)
      if (known !== undefined) continue
      const own: PiecePad = {
        number,
        at,
        widthMm: shape?.widthMm ?? 0,
        lengthMm: shape?.lengthMm ?? 0,
        rotationDeg: turn % 360,
        isRound: shape?.isRound ?? false,
        access: 'through',
        hole: undefined,
        net,
        signal: undefined,
      }
      this.pads.set(key, { ref, pad: own, layers: new Set([layer]) })
    }
  }

  private addFeatures(features: XmlElement, net: string, layer: string): void {
    const { mm, lineWidths } = this.dictionary
    const offset = pointAt(childOf(features, 'Location'), mm)
    for (const line of within(features, LINES)) {
      const widthMm =
        lengthOf(childOf(line, 'LineDesc'), 'lineWidth', mm) ??
        lineWidths.get(childOf(line, 'LineDescRef')?.attributes['id'] ?? '')
      this.tracks.push({ net, layer, points: moved(lineOf(line, mm), offset), widthMm: widthMm ?? 0 })
    }
    for (const polygon of within(features, POLYGONS)) {
      const points = moved(cornersOf(polygon, mm), offset)
      if (points.length > 2) this.pours.push({ net, layer, points })
    }
  }
}

/** As near as two writings of one place are. */
export const placeKey = ({ x, y }: Point): string => `${x.toFixed(3)} ${y.toFixed(3)}`

const moved = (points: readonly Point[], by: Point): readonly Point[] =>
  by.x === 0 && by.y === 0 ? points : points.map(({ x, y }) => ({ x: x + by.x, y: y + by.y }))

function shapeRef(element: XmlElement, shapes: ReadonlyMap<string, Shape>): Shape | undefined {
  const named = element.children.find(({ name }) => name === 'StandardPrimitiveRef' || name === 'UserPrimitiveRef')
  return shapes.get(named?.attributes['id'] ?? '')
}

/** A round cut-out as a closed edge. */
export function roundEdge(at: Point, diameterMm: number): PieceStroke {
  const corners = Array.from({ length: 48 }, (_, i) => ({
    x: at.x + (diameterMm / 2) * Math.cos((i * Math.PI) / 24),
    y: at.y + (diameterMm / 2) * Math.sin((i * Math.PI) / 24),
  }))
  return { points: corners, isClosed: true, circle: { at, radiusMm: diameterMm / 2 } }
}
