/**
 * An IPC-2581 file, revision B or C, as a piece of a board. Source: IPC-2581C, "Generic Requirements for Printed Board Assembly
 * Products Manufacturing Description Data and Transfer Methodology", 2020, as open files of several writers follow it.
 */
import { bad, good, type Result, showValue, say } from '../../../base/index.ts'
import { groupedBy } from '../../group.ts'
import {
  emptyPart,
  emptyPiece,
  type PadAccess,
  type Piece,
  type PieceCopper,
  type PiecePad,
  type PiecePart,
  type PieceStroke,
} from '../pieces.ts'
import { Dictionary, isCopper } from './dictionary.ts'
import { withPlainNames } from './names.ts'
import { BadNumber, childrenOf, lengthOf, mmPerUnit, within } from './shapes.ts'
import { placeKey, roundEdge, Step } from './step.ts'
import { onBoard, rotationOf, turnsOf } from './turns.ts'
import { readXml, type XmlElement, type XmlWish } from './xml.ts'

export interface Ipc2581Options {
  readonly name: string
  readonly onProgress?: ((readBytes: number) => void) | undefined
  readonly signal?: AbortSignal | undefined
}

/** Whether a text begins as such files do, behind a declaration and remarks. */
export function looksLikeIpc2581(text: string): boolean {
  let at = text.startsWith('<?xml') ? text.indexOf('?>') + 2 : 0
  for (let next = skipBlanks(text, at); text.startsWith('<!--', next); next = skipBlanks(text, at)) {
    const end = text.indexOf('-->', next)
    if (end < 0) return false
    at = end + 3
  }
  return /^<(\w{1,40}:)?IPC-2581[\s>]/.test(text.slice(skipBlanks(text, at)).slice(0, 80))
}

function skipBlanks(text: string, from: number): number {
  let at = from
  while (at < text.length && text.charCodeAt(at) <= 32) at++
  return at
}

/** @returns a fault with a line for what is no XML, has entities of its own or a number that no board has */
export async function readIpc2581(source: AsyncIterable<Uint8Array>, options: Ipc2581Options): Promise<Result<Piece>> {
  const collector = new Collector()
  const { name: file, onProgress, signal } = options
  try {
    const read = await readXml(source, {
      file,
      root: 'IPC-2581',
      onOpen: (name, attributes) => collector.open(name, attributes),
      onClose: (name) => collector.close(name),
      onElement: (element) => collector.take(element),
      onProgress,
      signal,
    })
    if (!read.ok) return read
    return good(collector.piece(file))
  } catch (error) {
    if (!(error instanceof BadNumber)) throw error
    const { element, attribute } = error
    const found = `${attribute}=${showValue(element.attributes[attribute])}`
    return bad({ path: `${file}, line ${element.line}`, found, expected: say('a number on a board') })
  }
}

const ENTERED = new Set(
  'IPC-2581 Netlist Content Bom Ecad CadData Step Stackup StackupGroup DictionaryStandard DictionaryUser DictionaryLineDesc'.split(
    ' ',
  ),
)
const TAKEN = new Set(
  'EntryStandard EntryUser EntryLineDesc CadHeader PadStackDef Layer StackupLayer Profile Package Component Set BomItem LogicalNet PhyNet PhyNetGroup'.split(
    ' ',
  ),
)
const DRILLED = /^(DRILL|ROUT|V_CUT)/

class Collector {
  private readonly dictionary = new Dictionary()
  private readonly steps: Step[] = []
  private step = new Step(this.dictionary)
  private units: string | undefined
  private layer = ''
  private thicknessMm: number | undefined
  private readonly stack: { name: string; thicknessMm: number | undefined; order: number }[] = []
  private readonly values = new Map<string, string>()
  /** Some writers list one part of each kind only. */
  private readonly valueOfItem = new Map<string, string>()

  open(name: string, attributes: () => Readonly<Record<string, string>>): XmlWish {
    if (name === 'LayerFeature') return this.openLayer(attributes()['layerRef'] ?? '')
    if (name.startsWith('Dictionary')) this.units = attributes()['units']
    if (name === 'Step') this.step = new Step(this.dictionary)
    if (name === 'StackupGroup' || name === 'Stackup') this.openStack(attributes())
    if (ENTERED.has(name)) return 'enter'
    return TAKEN.has(name) ? 'take' : 'skip'
  }

  close(name: string): void {
    if (name === 'Step') this.steps.push(this.step)
  }

  take(element: XmlElement): void {
    if (element.name.startsWith('Entry')) this.dictionary.addEntry(element, this.units)
    else if (element.name === 'CadHeader') this.dictionary.mm = mmPerUnit(element.attributes['units']) ?? 1
    else if (element.name === 'Layer') this.dictionary.addLayer(element)
    else if (element.name === 'StackupLayer') this.addStackLayer(element)
    else if (element.name === 'BomItem') this.addBomItem(element)
    else if (element.name === 'PhyNetGroup') for (const net of childrenOf(element, 'PhyNet')) this.step.take(net, '')
    else this.step.take(element, this.layer)
  }

  private openLayer(name: string): XmlWish {
    const layer = this.dictionary.layers.get(name)
    this.layer = name
    const isWanted =
      isCopper(layer) || layer?.kind === 'BOARD_OUTLINE' || layer === undefined || DRILLED.test(layer.kind)
    return isWanted ? 'enter' : 'skip'
  }

  private openStack(attributes: Readonly<Record<string, string>>): void {
    const told = Number(attributes['overallThickness'] ?? attributes['thickness'] ?? Number.NaN) * this.dictionary.mm
    if (told > 0 && told < 100) this.thicknessMm ??= told
  }

  private addStackLayer(element: XmlElement): void {
    const { layerOrGroupRef: name = '', sequence } = element.attributes
    const thicknessMm = lengthOf(element, 'thickness', this.dictionary.mm)
    this.stack.push({ name, thicknessMm, order: Number(sequence ?? this.stack.length) })
  }

  private addBomItem(element: XmlElement): void {
    const textual = within(element, new Set(['Textual'])).find(({ attributes }) =>
      /^val(ue)?$/i.test(attributes['textualCharacteristicName'] ?? ''),
    )
    const value = textual?.attributes['textualCharacteristicValue']
    if (value === undefined || value === '') return
    this.valueOfItem.set(element.attributes['OEMDesignNumberRef'] ?? '', value)
    for (const { attributes } of childrenOf(element, 'RefDes')) this.values.set(attributes['name'] ?? '', value)
  }

  piece(file: string): Piece {
    // a panel is a step too; the board is the one with parts
    const step = this.steps.reduce(
      (a, b) => (b.components.length > a.components.length ? b : a),
      this.steps[0] ?? this.step,
    )
    const copper = this.copper()
    const { parts, changed } = withPlainNames(this.parts(step, copper), this.dictionary.layers.keys())
    const taken = new Set(parts.flatMap(({ pads }) => pads.map(({ at }) => placeKey(at))))
    const cutouts = step.holes.filter(({ at, isPlated }) => !isPlated && !taken.has(placeKey(at)))
    const outline: PieceStroke[] = [...step.outline, ...cutouts.map(({ at, diameterMm }) => roundEdge(at, diameterMm))]
    const untold = [
      ...(this.steps.length > 1
        ? [say('{file} has several steps; the one with most parts is taken as the board.', { file })]
        : []),
      ...(changed === 0
        ? []
        : [
            say(
              '{file} puts numbers behind names that stand for two things; {changed, plural, one {# name} other {# names}} are read without.',
              { file, changed },
            ),
          ]),
    ]
    const { tracks, vias, pours } = step
    return {
      ...emptyPiece(file, 'ipc2581'),
      outline,
      copper,
      thicknessMm: this.thicknessMm,
      parts,
      tracks,
      vias,
      pours,
      untold,
    }
  }

  private copper(): PieceCopper[] {
    const layers = [...this.dictionary.layers.values()].filter(isCopper)
    const inStack = new Map(this.stack.map((layer) => [layer.name, layer]))
    return layers
      .map(({ name, side }, i) => ({
        name,
        side,
        order: inStack.get(name)?.order ?? i,
        thicknessMm: inStack.get(name)?.thicknessMm,
      }))
      .toSorted((a, b) => a.order - b.order)
  }

  private parts(step: Step, copper: readonly PieceCopper[]): PiecePart[] {
    const sides = new Map(copper.map(({ name, side }) => [name, side]))
    const holes = new Map(step.holes.map((hole) => [placeKey(hole.at), hole]))
    const laid = groupedBy(
      [...step.pads.values()].map(({ ref, pad, layers }) => ({
        ref,
        pad: { ...pad, access: accessOn(layers, sides), hole: holes.get(placeKey(pad.at)) },
      })),
      ({ ref }) => ref,
    )
    const padsOf = (ref: string): PiecePad[] => (laid.get(ref) ?? []).map(({ pad }) => pad)
    const turns = turnsOf(step.components, step.packages, padsOf)
    return step.components.map((component): PiecePart => {
      const own = step.packages.get(component.packageName)
      const drawn = (edges: readonly (readonly { x: number; y: number }[])[] = []): PieceStroke[] =>
        edges.map((edge) => ({ points: edge.map((point) => onBoard(point, component, turns)), isClosed: true }))
      const { ref, at, side, heightMm } = component
      const pads = padsOf(ref)
      const access: PadAccess = component.isThrough ? 'through' : (side ?? 'top')
      const pins = (own?.pins ?? []).map(({ number, at: local, shape }): PiecePad => {
        const place = onBoard(local, component, turns)
        return {
          number,
          at: place,
          widthMm: shape?.widthMm ?? 0,
          lengthMm: shape?.lengthMm ?? 0,
          rotationDeg: rotationOf(component, turns),
          isRound: shape?.isRound ?? false,
          access,
          hole: holes.get(placeKey(place)),
          net: undefined,
          signal: undefined,
        }
      })
      const laidNumbers = new Set(pads.map(({ number }) => number))
      const laidPlaces = new Set(pads.map(({ at: place }) => placeKey(place)))
      const all = [
        ...pads,
        ...pins.filter(({ number, at: place }) => !laidNumbers.has(number) && !laidPlaces.has(placeKey(place))),
      ]
      return {
        ...emptyPart(ref),
        at,
        side,
        rotationDeg: rotationOf(component, turns),
        value: this.values.get(ref) ?? this.valueOfItem.get(component.part ?? ''),
        packageName: component.packageName,
        heightMm: heightMm ?? own?.heightMm,
        bodies: drawn(own?.bodies),
        courtyards: drawn(own?.outlines),
        pads: all.map((pad) => ({
          ...pad,
          net:
            pad.net ??
            this.dictionary.netOfPin.get(`${ref} ${pad.number}`) ??
            this.dictionary.netAt.get(placeKey(pad.at)),
        })),
      }
    })
  }
}

function accessOn(layers: ReadonlySet<string>, sides: ReadonlyMap<string, 'top' | 'bottom' | undefined>): PadAccess {
  const on = new Set([...layers].map((layer) => sides.get(layer)))
  if (on.has('top') === on.has('bottom')) return 'through'
  return on.has('top') ? 'top' : 'bottom'
}
