/** Copper layers with their thickness and how full they are, as far as the file tells. */
import { distance, someOf } from '../../base/index.ts'
import type { BoardDescription } from '../schema.ts'
import { copperLayersOf } from './layers.ts'
import type { KicadLayout } from './layout.ts'

/** One ounce per square foot, the usual foil. Common practice, no source. */
const USUAL_FOIL_UM = 35

/**
 * @param areaMm2 area of the board
 * @returns the layers from the top down; none where the file has no stack-up, which is said
 */
export function copperOf(layout: KicadLayout, areaMm2: number, untold: string[]): BoardDescription['copper'] {
  if (layout.stackup.length === 0) {
    const names = layout.layers.copper.map((layer) => layer.shown)
    if (names.length > 0)
      untold.push(`The file has no stack-up: how thick its copper layers are (${names.join(', ')}) isn't told.`)
    return []
  }
  const copperMm2 = copperAreas(layout)
  if (layout.zones > 0 && layout.fills.length === 0)
    untold.push('The zones of the file are not filled, so how full the copper layers are counts tracks and pads alone.')
  else untold.push('How full each copper layer is was added up from fills, tracks and pads; overlaps count twice.')
  const shownNames = new Map(layout.layers.copper.map((layer) => [layer.name, layer.shown]))
  const unknown: string[] = []
  const copper = layout.stackup.map(({ name, thicknessMm }) => {
    const shown = shownNames.get(name) ?? name
    if (thicknessMm === undefined || thicknessMm <= 0) unknown.push(shown)
    const thicknessUm = thicknessMm !== undefined && thicknessMm > 0 ? thicknessMm * 1000 : USUAL_FOIL_UM
    const fill = areaMm2 > 0 ? Math.min(1, (copperMm2.get(name) ?? 0) / areaMm2) : 0
    return {
      name: shown.slice(0, 120),
      thicknessUm: Math.round(Math.min(1000, thicknessUm) * 1000) / 1000,
      fill: Math.round(fill * 1000) / 1000,
    }
  })
  if (unknown.length > 0)
    untold.push(`The stack-up gives no thickness for ${someOf(unknown)}; ${USUAL_FOIL_UM} µm is assumed.`)
  return copper.slice(0, 64)
}

function copperAreas(layout: KicadLayout): ReadonlyMap<string, number> {
  const areas = new Map<string, number>()
  const add = (layer: string, areaMm2: number): void => {
    areas.set(layer, (areas.get(layer) ?? 0) + areaMm2)
  }
  for (const fill of layout.fills) add(fill.layer, fill.areaMm2)
  for (const track of layout.tracks)
    for (let i = 1; i < track.points.length; i++) {
      const a = track.points[i - 1]
      const b = track.points[i]
      if (a && b) add(track.layer, distance(a, b) * track.widthMm)
    }
  for (const footprint of layout.footprints)
    for (const pad of footprint.pads)
      for (const layer of copperLayersOf(layout.layers, pad.layers)) add(layer, pad.widthMm * pad.lengthMm)
  return areas
}
