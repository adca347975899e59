/** The copper of one zone: its filled pieces, or, where it was never filled, what its edge encloses. */
import { child, children, type Form, textAt } from './forms.ts'
import { copperLayersOf, type LayerTable } from '../layout/layers.ts'
import type { Pour } from '../layout/model.ts'
import { pourInside } from '../layout/pour.ts'
import { listedPoints } from './strokes.ts'

/** @returns none for an area in which nothing may be poured, and none on layers without copper */
export function poursOf(zone: Form, net: string | undefined, table: LayerTable): Pour[] {
  if (child(zone, 'keepout') !== undefined) return []
  const named = [child(zone, 'layers'), child(zone, 'layer')].flatMap((form) => form?.items ?? [])
  const layers = copperLayersOf(
    table,
    named.filter((item) => typeof item === 'string'),
  )
  const filled = children(zone, 'filled_polygon').flatMap((form) => {
    const layer = textAt(child(form, 'layer'), 0) ?? layers[0]
    return layer === undefined ? [] : pourAlong(form, { net, layer, isFilled: true })
  })
  if (filled.length > 0) return filled
  const edges = children(zone, 'polygon')
  return layers.flatMap((layer) => edges.flatMap((form) => pourAlong(form, { net, layer, isFilled: false })))
}

function pourAlong(form: Form, pour: Pick<Pour, 'net' | 'layer' | 'isFilled'>): Pour[] {
  const points = listedPoints(child(form, 'pts'))
  if (points === undefined || points.length < 3) return []
  return [pourInside(points, pour)]
}
