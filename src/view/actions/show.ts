/** Selects a thing and moves the sheet so that it is seen, on the side that it is on. */
import { type Box, boxOf } from '../../base/index.ts'
import type { BoardModel, Side } from '../../board/index.ts'
import type { Case } from '../../case/index.ts'
import type { Selection } from '../sheet/index.ts'
import type { Desk } from '../stores/desk.ts'
import { pointOfMark } from '../stores/derive.ts'

const CONTEXT_MM = 14

export function showOnSheet(desk: Desk, selection: Selection): void {
  desk.screen.setState({ selection })
  const { board, history } = desk.cases.getState()
  if (board === undefined || history === undefined) return
  const place = placeOf(board.model, history.present.marks, selection)
  if (place === undefined) return
  const camera = board.camera.getState()
  if (camera.side !== 'both' && camera.side !== place.side) camera.show(place.side)
  camera.showBox(place.box)
}

interface Place {
  readonly box: Box
  readonly side: Side
}

function placeOf(model: BoardModel, marks: Case['marks'], { kind, id }: Selection): Place | undefined {
  if (kind === 'mark') {
    const mark = marks.find((entry) => entry.id === id)
    return mark === undefined ? undefined : { box: around([pointOfMark(mark)]), side: mark.side }
  }
  if (kind === 'lane') {
    const corridor = model.corridorByLane.get(id)
    if (corridor !== undefined) return { box: around(corridor.path), side: corridor.side }
    return placeOfParts(model, [model.laneById.get(id)?.part ?? ''])
  }
  if (kind === 'region') {
    const region = model.regionById.get(id)
    return region === undefined ? undefined : { box: around(region.polygon), side: region.side }
  }
  if (kind === 'rail') {
    const rail = model.rails.find((entry) => entry.name === id)
    return placeOfParts(model, [...(rail?.feeds ?? []), ...(rail?.stages ?? [])])
  }
  if (kind === 'net') return placeOfNet(model, id)
  return placeOfParts(model, [id])
}

function placeOfParts(model: BoardModel, refs: readonly string[]): Place | undefined {
  const parts = refs.flatMap((ref) => model.partByRef.get(ref) ?? [])
  const first = parts[0]
  return first === undefined ? undefined : { box: around(parts.flatMap((part) => part.outline)), side: first.side }
}

function placeOfNet(model: BoardModel, net: string): Place | undefined {
  const pads = model.parts.flatMap((part) =>
    part.pads.filter((pad) => pad.net === net).map((pad) => ({ at: pad.at, side: part.side })),
  )
  const first = pads[0]
  return first === undefined ? undefined : { box: around(pads.map((pad) => pad.at)), side: first.side }
}

function around(points: Parameters<typeof boxOf>[0]): Box {
  const box = boxOf(points)
  return {
    minX: box.minX - CONTEXT_MM,
    minY: box.minY - CONTEXT_MM,
    maxX: box.maxX + CONTEXT_MM,
    maxY: box.maxY + CONTEXT_MM,
  }
}
