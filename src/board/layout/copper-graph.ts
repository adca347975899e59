/** The copper of one net as a graph: ends and corners of tracks, vias and pads, joined where they touch. */
import { distance, distanceToSegment, type Point } from '../../base/index.ts'
import { copperLayersOf, type LayerTable } from './layers.ts'
import type { Track, Via } from './model.ts'
import type { NetPin } from './netlist.ts'

/** Ends that meet within a micrometre are one point; a track's end this near to another's middle line joins it. */
const SAME_POINT_PER_MM = 1000
const TOUCH_MM = 0.002
/** More tracks than this on one net are a plane, not a signal; no path is looked for. */
const MOST_TRACKS = 4000
const MOST_JOINTS = 1000
const UNREACHED = -1

export interface NetCopper {
  readonly tracks: readonly Track[]
  readonly vias: readonly Via[]
  readonly pins: readonly NetPin[]
  /** Pairs of pins that a series resistor joins. */
  readonly bridges: readonly (readonly [NetPin, NetPin])[]
}

/** Paths from one pin to others, each a run of points on the board from the first pin's middle to the other's. */
export class CopperGraph {
  private readonly points: Point[] = []
  private readonly links: { to: number; lengthMm: number }[][] = []
  private readonly byPlace = new Map<string, number>()
  private readonly layerOf: string[] = []
  private readonly pinNode = new Map<string, number>()

  constructor(copper: NetCopper, layers: LayerTable) {
    if (copper.tracks.length > MOST_TRACKS || copper.vias.length + copper.pins.length > MOST_JOINTS) return
    for (const track of copper.tracks) this.addTrack(track)
    this.joinCrossings(copper.tracks)
    for (const via of copper.vias) this.addJoint(via.at, this.viaLayers(via, layers), via.sizeMm / 2)
    for (const pin of copper.pins) {
      const reach = Math.max(pin.pad.widthMm, pin.pad.lengthMm) / 2
      const node = this.addJoint(pin.at, copperLayersOf(layers, pin.raw.layers), reach)
      this.pinNode.set(keyOf(pin), node)
    }
    for (const [a, b] of copper.bridges) this.linkPins(a, b)
  }

  /** @returns for each target the shortest path along copper, or undefined where none joins them */
  paths(from: NetPin, targets: readonly NetPin[]): (Point[] | undefined)[] {
    const start = this.pinNode.get(keyOf(from))
    if (start === undefined) return targets.map(() => undefined)
    const before = this.search(start)
    return targets.map((target) => {
      const end = this.pinNode.get(keyOf(target))
      return end === undefined || (before[end] ?? UNREACHED) === UNREACHED ? undefined : this.trace(before, start, end)
    })
  }

  private addTrack(track: Track): void {
    let previous: number | undefined
    for (const point of track.points) {
      const node = this.nodeAt(point, track.layer)
      if (previous !== undefined) this.link(previous, node)
      previous = node
    }
  }

  /** A track may end on the middle of another: its end is then linked to the other's two ends. */
  private joinCrossings(tracks: readonly Track[]): void {
    for (const track of tracks)
      for (const end of [track.points[0], track.points.at(-1)]) {
        if (end === undefined) continue
        const node = this.nodeAt(end, track.layer)
        if ((this.links[node]?.length ?? 0) > 1) continue
        for (const other of tracks) {
          if (other !== track && other.layer === track.layer) this.joinToMiddle(node, end, other)
        }
      }
  }

  private joinToMiddle(node: number, end: Point, other: Track): void {
    for (let i = 1; i < other.points.length; i++) {
      const a = other.points[i - 1]
      const b = other.points[i]
      if (!a || !b || distanceToSegment(end, a, b) > Math.max(TOUCH_MM, other.widthMm / 2)) continue
      this.link(node, this.nodeAt(a, other.layer))
      this.link(node, this.nodeAt(b, other.layer))
    }
  }

  /** A via or pad: one node, linked to every track corner that it covers on its layers. */
  private addJoint(at: Point, layers: readonly string[], reachMm: number): number {
    const node = this.points.length
    const spans = new Set(layers)
    this.points.push(at)
    this.links.push([])
    this.layerOf.push('')
    for (let other = 0; other < node; other++) {
      const point = this.points[other]
      const layer = this.layerOf[other] ?? ''
      if (!point || (layer !== '' && !spans.has(layer))) continue
      if (distance(point, at) <= reachMm + TOUCH_MM) this.link(node, other)
    }
    return node
  }

  private viaLayers(via: Via, layers: LayerTable): string[] {
    const names = layers.copper.map((layer) => layer.name)
    const ends = via.layers.map((name) => names.indexOf(name)).filter((index) => index >= 0)
    return ends.length < 2 ? names : names.slice(Math.min(...ends), Math.max(...ends) + 1)
  }

  private linkPins(a: NetPin, b: NetPin): void {
    const from = this.pinNode.get(keyOf(a))
    const to = this.pinNode.get(keyOf(b))
    if (from !== undefined && to !== undefined) this.link(from, to)
  }

  private nodeAt(point: Point, layer: string): number {
    const key = `${Math.round(point.x * SAME_POINT_PER_MM)} ${Math.round(point.y * SAME_POINT_PER_MM)} ${layer}`
    const known = this.byPlace.get(key)
    if (known !== undefined) return known
    const node = this.points.length
    this.byPlace.set(key, node)
    this.points.push(point)
    this.links.push([])
    this.layerOf.push(layer)
    return node
  }

  private link(a: number, b: number): void {
    const from = this.points[a]
    const to = this.points[b]
    if (a === b || !from || !to) return
    const lengthMm = distance(from, to)
    this.links[a]?.push({ to: b, lengthMm })
    this.links[b]?.push({ to: a, lengthMm })
  }

  /** Dijkstra without a heap: nets have some hundred nodes. @returns the node before each, the start before itself */
  private search(start: number): Int32Array {
    const count = this.points.length
    const before = new Int32Array(count).fill(UNREACHED)
    const lengths = new Float64Array(count).fill(Infinity)
    const settled = new Uint8Array(count)
    const frontier = new Set([start])
    lengths[start] = 0
    before[start] = start
    while (frontier.size > 0) {
      let here = -1
      for (const node of frontier) if (here < 0 || (lengths[node] ?? 0) < (lengths[here] ?? 0)) here = node
      frontier.delete(here)
      settled[here] = 1
      for (const { to, lengthMm } of this.links[here] ?? []) {
        const length = (lengths[here] ?? 0) + lengthMm
        if (settled[to] === 1 || length >= (lengths[to] ?? 0)) continue
        lengths[to] = length
        before[to] = here
        frontier.add(to)
      }
    }
    return before
  }

  private trace(before: Int32Array, start: number, end: number): Point[] {
    const points: Point[] = []
    for (let node: number | undefined = end; node !== undefined; node = before[node]) {
      const point = this.points[node]
      if (point) points.push(point)
      if (node === start) break
    }
    return points.toReversed()
  }
}

const keyOf = (pin: NetPin): string => `${pin.owner.part.ref} ${pin.pad.number} ${pin.at.x} ${pin.at.y}`
