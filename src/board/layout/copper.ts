/** Copper layers with their thickness and how full they are, as far as the file tells. */
import { distance, someOf, say } from '../../base/index.ts'
import type { BoardDescription } from '../schema.ts'
import { copperLayersOf } from './layers.ts'
import type { Layout } from './model.ts'

/** One ounce per square foot, the usual foil. Common practice, no source. */
const USUAL_FOIL_UM = 35
const MOST_LAYERS = 64

type CopperLayer = BoardDescription['copper'][number]

/**
 * Every copper layer of the table with the user's name for it; a stack-up only adds how thick it is.
 * @param areaMm2 area of the board
 */
export function copperOf(layout: Layout, areaMm2: number, untold: string[]): CopperLayer[] {
  const thicknesses = new Map(layout.stackup.map(({ name, thicknessMm }) => [name, thicknessMm]))
  const listed =
    layout.layers.copper.length > 0 ? layout.layers.copper : layout.stackup.map(({ name }) => ({ name, shown: name }))
  const copperMm2 = copperAreas(layout)
  const copper = listed.slice(0, MOST_LAYERS).map(({ name, shown }): CopperLayer => {
    const thicknessMm = thicknesses.get(name) ?? 0
    const fill = areaMm2 > 0 ? Math.min(1, (copperMm2.get(name) ?? 0) / areaMm2) : 0
    return {
      name: shown.slice(0, 120),
      thicknessUm: thicknessMm > 0 ? Math.round(Math.min(1, thicknessMm) * 1e6) / 1000 : USUAL_FOIL_UM,
      fill: Math.round(fill * 1000) / 1000,
      ...(thicknessMm > 0 ? {} : { thicknessFrom: 'assumed' }),
    }
  })
  sayCopper(copper, layout, untold)
  return copper
}

function sayCopper(copper: readonly CopperLayer[], layout: Layout, untold: string[]): void {
  if (copper.length === 0) return
  const unknown = copper.filter(({ thicknessFrom }) => thicknessFrom === 'assumed').map(({ name }) => name)
  if (layout.stackup.length === 0)
    untold.push(
      say(
        "The file has no stack-up: how thick its copper layers are ({unknown}) isn't told; {usualFoilUm} µm each is assumed.",
        { unknown: unknown.join(', '), usualFoilUm: USUAL_FOIL_UM },
      ),
    )
  else if (unknown.length > 0)
    untold.push(
      say('The stack-up gives no thickness for {unknown}; {usualFoilUm} µm is assumed.', {
        unknown: someOf(unknown),
        usualFoilUm: USUAL_FOIL_UM,
      }),
    )
  untold.push(say('How full each copper layer is was added up from zones, tracks and pads; overlaps count twice.'))
  if (layout.pours.some(({ isFilled }) => !isFilled))
    untold.push(say('Zones that the file has not filled count as full of copper.'))
}

function copperAreas(layout: Layout): ReadonlyMap<string, number> {
  const areas = new Map<string, number>()
  const add = (layer: string, areaMm2: number): void => {
    areas.set(layer, (areas.get(layer) ?? 0) + areaMm2)
  }
  for (const pour of layout.pours) add(pour.layer, pour.areaMm2)
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
