/** From a stream of bytes to a KiCad layout: which forms are kept, and what each of them becomes. */
import { bad, type Fault, good, type Result, say } from '../../base/index.ts'
import type { LayerTable } from '../layout/layers.ts'
import type { Footprint, Layout, Pour, Stroke, Track, Via } from '../layout/model.ts'
import { readFootprint } from './footprint.ts'
import { child, type Form, numberAt, textAt } from './forms.ts'
import { readLayerTable, readStackup } from './layer-table.ts'
import { poursOf } from './pours.ts'
import { readForms } from './reader.ts'
import { arcPoints, pointOf, strokeOf } from './strokes.ts'

export interface CollectOptions {
  readonly onProgress?: ((readBytes: number) => void) | undefined
  readonly signal?: AbortSignal | undefined
}

const MAX_FAULTS = 20
/** What a board description may have at most. */
const MAX_FOOTPRINTS = 20_000
const MAX_EDGES = 20_000
const MAX_NET_NAME = 120
const OLDEST_VERSION = 3

const TOP_FORMS = new Set(
  'version general layers setup net footprint module segment arc via zone gr_line gr_arc gr_circle gr_rect gr_poly gr_curve'.split(
    ' ',
  ),
)
/** Forms inside the wanted ones that no one reads. */
const UNWANTED = new Set(
  [
    'effects model uuid tstamp tedit stroke path descr tags pcbplotparams primitives embedded_files',
    'embedded_fonts group fp_text_box image zone_connect thermal_width thermal_gap padstack options dimension',
    'table barcode attr',
  ].flatMap((names) => names.split(' ')),
)

function wants(name: string, parent: string): boolean {
  if (parent === 'kicad_pcb') return TOP_FORMS.has(name)
  // Footprints hold zones as well, where nothing may be poured; their edges and those of the board's zones are polygons.
  if (name === 'zone' || name === 'polygon') return parent === 'zone'
  return !UNWANTED.has(name)
}

/** Some writers of version 9 put `(teardrops … (curved_edges no)filter_ratio 0.9)`: one opening bracket short. */
const lacksItsBracket = (word: string, parent: string): boolean => parent === 'teardrops' && word === 'filter_ratio'

/** What only such a file says, and nothing is made of: counts. */
export interface KicadLayout extends Layout {
  /** Date code of the file format, such as 20211014; a small number before version 4. */
  readonly version: number
  readonly zones: number
}

/** Reads a whole layout; every form that can't be read is a fault with its line. */
export async function collectLayout(
  source: AsyncIterable<Uint8Array>,
  options: CollectOptions,
): Promise<Result<KicadLayout & { readonly bytes: number; readonly lines: number }>> {
  const collector = new Collector()
  const read = await readForms(source, {
    root: 'kicad_pcb',
    wants,
    opensForm: lacksItsBracket,
    onForm: (form) => collector.take(form),
    onProgress: options.onProgress,
    signal: options.signal,
  })
  if (!read.ok) return bad(...collector.faults, ...read.faults)
  if (collector.faults.length > 0) return bad(...collector.faults)
  return good({ ...collector.layout(), ...read.value })
}

class Collector {
  readonly faults: Fault[] = []
  private version = 0
  private thicknessMm: number | undefined
  private table: LayerTable = readLayerTable(undefined)
  private stackup: KicadLayout['stackup'] = []
  private readonly netNames = new Map<string, string>()
  private readonly shortNames = new Map<string, string>()
  private readonly footprints: Footprint[] = []
  private readonly edges: Stroke[] = []
  private readonly tracks: Track[] = []
  private readonly vias: Via[] = []
  private readonly pours: Pour[] = []
  private zones = 0

  take(form: Form): void {
    switch (form.name) {
      case 'version':
        return this.takeVersion(form)
      case 'general':
        this.thicknessMm = numberAt(child(form, 'thickness'), 0)
        return
      case 'layers':
        this.table = readLayerTable(form)
        return
      case 'setup':
        this.stackup = readStackup(form)
        return
      case 'net':
        this.netNames.set(textAt(form, 0) ?? '', textAt(form, 1) ?? textAt(form, 0) ?? '')
        return
      case 'footprint':
      case 'module':
        return this.takeFootprint(form)
      case 'segment':
      case 'arc':
        return this.takeTrack(form)
      case 'via':
        return this.takeVia(form)
      case 'zone':
        return this.takeZone(form)
      default:
        this.takeDrawing(form)
    }
  }

  layout(): KicadLayout {
    return {
      version: this.version,
      thicknessMm: this.thicknessMm,
      layers: this.table,
      stackup: this.stackup,
      footprints: this.footprints,
      edges: this.edges,
      tracks: this.tracks,
      vias: this.vias,
      pours: this.pours,
      zones: this.zones,
      shortenedNets: this.shortNames.size,
    }
  }

  private takeVersion(form: Form): void {
    const version = numberAt(form, 0)
    if (version === undefined || version < OLDEST_VERSION) this.refuse(form, say('(version …) of 4 or newer'))
    else this.version = version
  }

  private takeFootprint(form: Form): void {
    const footprint = readFootprint(form, (net) => this.netOf(net), { refuse: (at, what) => this.refuse(at, what) })
    if (footprint === undefined) return
    if (this.footprints.length >= MAX_FOOTPRINTS)
      return this.refuse(form, say('at most {maxFootprints} footprints', { maxFootprints: MAX_FOOTPRINTS }))
    this.footprints.push(footprint)
  }

  private takeTrack(form: Form): void {
    const start = pointOf(child(form, 'start'))
    const end = pointOf(child(form, 'end'))
    const net = this.netOf(child(form, 'net'))
    const points = start && end ? (form.name === 'arc' ? arcPoints(form, start, end) : [start, end]) : undefined
    if (points === undefined) return this.refuse(form, say('a track with all its coordinates'))
    if (net === undefined) return
    const layer = textAt(child(form, 'layer'), 0) ?? ''
    this.tracks.push({ net, layer, points, widthMm: numberAt(child(form, 'width'), 0) ?? 0 })
  }

  private takeVia(form: Form): void {
    const at = pointOf(child(form, 'at'))
    if (at === undefined) return this.refuse(form, say('a via with (at x y)'))
    const net = this.netOf(child(form, 'net'))
    if (net === undefined) return
    const layers = child(form, 'layers')?.items.filter((item) => typeof item === 'string') ?? []
    this.vias.push({ net, at, sizeMm: numberAt(child(form, 'size'), 0) ?? 0, layers })
  }

  private takeZone(form: Form): void {
    this.zones++
    const named = textAt(child(form, 'net_name'), 0)
    const net = this.netOf(child(form, 'net')) ?? (named === '' ? undefined : named)
    for (const pour of poursOf(form, net, this.table)) this.pours.push(pour)
  }

  private takeDrawing(form: Form): void {
    if (textAt(child(form, 'layer'), 0) !== 'Edge.Cuts') return
    const stroke = strokeOf(form)
    if (stroke === undefined) return this.refuse(form, say('a drawing with all its coordinates'))
    if (this.edges.length >= MAX_EDGES)
      return this.refuse(form, say('at most {maxEdges} drawings on Edge.Cuts', { maxEdges: MAX_EDGES }))
    this.edges.push(stroke)
  }

  /** `(net 5)` and `(net 5 "NAME")` with a table, `(net "NAME")` without one; the net without a name is none. */
  private netOf(form: Form | undefined): string | undefined {
    const first = textAt(form, 0)
    if (first === undefined) return undefined
    const name = this.netNames.get(first) ?? textAt(form, 1) ?? first
    if (name === '' || (name === '0' && this.netNames.size === 0)) return undefined
    return name.length > MAX_NET_NAME ? this.shortened(name) : name
  }

  /** A name too long for a description keeps its beginning and gets a number. */
  private shortened(name: string): string {
    const known = this.shortNames.get(name)
    if (known !== undefined) return known
    const short = `${name.slice(0, MAX_NET_NAME - 12)}…#${this.shortNames.size + 1}`
    this.shortNames.set(name, short)
    return short
  }

  private refuse(form: Form, expected: string): void {
    if (this.faults.length >= MAX_FAULTS) return
    this.faults.push({
      path: `line ${form.line}`,
      found: say("({name} …) that can't be read", { name: form.name }),
      expected,
    })
  }
}
