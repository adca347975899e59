/** One footprint (`module` to version 5) with its pads, as the file has it. */
import { say } from '../../base/index.ts'
import { child, children, type Form, numberAt, textAt } from './forms.ts'
import type { Footprint, LayoutPad, Stroke } from '../layout/model.ts'
import { pointOf, strokeOf } from './strokes.ts'

/** Resolves the net of a pad, track or via: a number in the net table, or a name. */
export type NetName = (form: Form | undefined) => string | undefined

export interface Complaints {
  /** A form that can't be read as what it should be. */
  readonly refuse: (form: Form, expected: string) => void
}

/** Layers whose drawings tell the body of a part, or the edge of the board. */
const KEPT_LAYERS = /^(Edge\.Cuts|[FB]\.(Fab|CrtYd|Courtyard|Silk.*))$/
const DRAWINGS = ['fp_line', 'fp_arc', 'fp_circle', 'fp_rect', 'fp_poly', 'fp_curve'] as const

/** @returns undefined, with a complaint, when the footprint has no place */
export function readFootprint(form: Form, netOf: NetName, complaints: Complaints): Footprint | undefined {
  const at = pointOf(child(form, 'at'))
  if (at === undefined) {
    complaints.refuse(form, say('(at x y) with two numbers'))
    return undefined
  }
  return {
    library: textAt(form, 0) ?? '',
    layer: textAt(child(form, 'layer'), 0) ?? 'F.Cu',
    at,
    rotationDeg: numberAt(child(form, 'at'), 2) ?? 0,
    reference: labelOf(form, 'reference', 'Reference'),
    value: labelOf(form, 'value', 'Value'),
    pads: children(form, 'pad').flatMap((pad) => readPad(pad, netOf, complaints) ?? []),
    strokes: children(form, ...DRAWINGS).flatMap((drawing) => readStroke(drawing, complaints) ?? []),
    line: form.line,
  }
}

/** To version 7 `(fp_text reference "U1" …)`, from 8 on `(property "Reference" "U1" …)`. */
function labelOf(form: Form, textKind: string, propertyName: string): string {
  for (const label of children(form, 'property', 'fp_text')) {
    const wanted = label.name === 'property' ? propertyName : textKind
    if (textAt(label, 0) === wanted) return (textAt(label, 1) ?? '').trim()
  }
  return ''
}

function readStroke(form: Form, complaints: Complaints): Stroke | undefined {
  if (!KEPT_LAYERS.test(textAt(child(form, 'layer'), 0) ?? '')) return undefined
  const stroke = strokeOf(form)
  if (stroke === undefined && textAt(child(form, 'layer'), 0) === 'Edge.Cuts')
    complaints.refuse(form, say('a drawing with all its coordinates'))
  return stroke
}

function readPad(form: Form, netOf: NetName, complaints: Complaints): LayoutPad | undefined {
  const at = pointOf(child(form, 'at'))
  const size = pointOf(child(form, 'size'))
  if (at === undefined || size === undefined) {
    complaints.refuse(form, say('a pad with (at x y) and (size width height)'))
    return undefined
  }
  const layers = child(form, 'layers')?.items.filter((item) => typeof item === 'string') ?? []
  return {
    number: textAt(form, 0) ?? '',
    type: textAt(form, 1) ?? 'smd',
    shape: textAt(form, 2) ?? 'rect',
    at,
    rotationDeg: numberAt(child(form, 'at'), 2) ?? 0,
    widthMm: Math.abs(size.x),
    lengthMm: Math.abs(size.y),
    drill: readDrill(child(form, 'drill')),
    layers,
    net: netOf(child(form, 'net')),
    signal: textAt(child(form, 'pinfunction'), 0),
    pinType: textAt(child(form, 'pintype'), 0),
  }
}

/** `(drill 0.8)`, `(drill oval 0.8 1.6)`, `(drill oval 0.8)`, `(drill (offset …))`. */
function readDrill(form: Form | undefined): LayoutPad['drill'] {
  if (form === undefined) return undefined
  const first = textAt(form, 0) === 'oval' ? 1 : 0
  const widthMm = numberAt(form, first)
  if (widthMm === undefined || widthMm <= 0) return undefined
  return { widthMm, lengthMm: numberAt(form, first + 1) ?? widthMm }
}
