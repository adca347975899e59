/** One edit on one board: a new description, or the sentence that says why not. */
import { bad, faultsFromZod, good, type Result } from '../../base/index.ts'
import type { BoardDescription } from '../schema.ts'
import { forgetLabels, labelAddresses, orderBits, useAddressMap } from './addresses.ts'
import { nameBalls } from './balls.ts'
import { type BoardEdit, boardEditSchema } from './edits.ts'
import { splitRegion, swapLanes, swapRegions } from './lanes.ts'
import { drawRegion, forgetRegion } from './regions.ts'
import { align, distribute } from './lining.ts'
import { addPart, array, changePart, remove, rename, withFields } from './parts.ts'
import { changeSide, move, place, rotate } from './placing.ts'
import {
  addPoint,
  addRail,
  branch,
  changeRail,
  feed,
  make,
  movePoint,
  removePoint,
  removeRail,
  renameRail,
} from './rails.ts'

/**
 * The board after an edit; the same object where the edit changes nothing. The board that comes in is never changed.
 * Refuses, with a sentence, what the edit names and the board lacks, and what no board file can say. Whether the board is
 * sound afterwards is for `loadBoard` to say: an edit may well break it.
 */
export function applyEdit(board: BoardDescription, edit: BoardEdit): Result<BoardDescription> {
  const parsed = boardEditSchema.safeParse(edit)
  if (!parsed.success) return bad(...faultsFromZod(parsed.error, edit))
  return applied(board, parsed.data)
}

function applied(board: BoardDescription, edit: BoardEdit): Result<BoardDescription> {
  switch (edit.kind) {
    case 'move':
      return move(board, edit)
    case 'place':
      return place(board, edit)
    case 'rotate':
      return rotate(board, edit)
    case 'align':
      return align(board, edit)
    case 'distribute':
      return distribute(board, edit)
    case 'change-side':
      return changeSide(board, edit)
    case 'add-part':
      return addPart(board, edit)
    case 'array':
      return array(board, edit)
    case 'remove':
      return remove(board, edit)
    case 'rename':
      return rename(board, edit)
    case 'change-part':
      return changePart(board, edit)
    case 'name-balls':
      return nameBalls(board, edit)
    case 'swap-lanes':
      return swapLanes(board, edit)
    case 'swap-regions':
      return swapRegions(board, edit)
    case 'split-region':
      return splitRegion(board, edit)
    case 'draw-region':
      return drawRegion(board, edit)
    case 'forget-region':
      return forgetRegion(board, edit)
    case 'rename-board':
      return good(edit.to === board.name ? board : { ...board, name: edit.to })
    case 'use-address-map':
      return good(useAddressMap(board, edit))
    case 'label-addresses':
      return labelAddresses(board, edit)
    case 'forget-labels':
      return good(forgetLabels(board, edit))
    case 'order-bits':
      return orderBits(board, edit)
    case 'forget-address-map':
      return good(board.addressMap === undefined ? board : withFields(board, { addressMap: null }))
    default:
      return appliedToRail(board, edit)
  }
}

type RailEdit = Extract<BoardEdit, { readonly rail: unknown }>

function appliedToRail(board: BoardDescription, edit: RailEdit): Result<BoardDescription> {
  switch (edit.kind) {
    case 'add-rail':
      return addRail(board, edit)
    case 'remove-rail':
      return removeRail(board, edit)
    case 'rename-rail':
      return renameRail(board, edit)
    case 'change-rail':
      return changeRail(board, edit)
    case 'feed':
      return feed(board, edit)
    case 'make':
      return make(board, edit)
    case 'branch':
      return branch(board, edit)
    case 'add-point':
      return addPoint(board, edit)
    case 'move-point':
      return movePoint(board, edit)
    case 'remove-point':
      return removePoint(board, edit)
    default:
      return edit satisfies never
  }
}
