/** An edit in words: what a history lists, and the button that undoes it says. */
import { counted, millimetres, someOf } from '../../base/index.ts'
import { turnWords } from '../compare.ts'
import type { BoardEdit } from './edits.ts'

const refsWords = (refs: readonly string[]): string => someOf(refs, 3)

const lineWords = {
  left: 'lined up at their left edges',
  right: 'lined up at their right edges',
  top: 'lined up at their top edges',
  bottom: 'lined up at their bottom edges',
  'centre-x': 'lined up one above the other',
  'centre-y': 'lined up side by side',
} as const

/** Such as `U13 moved by 2.5 mm`: no full stop, ready to stand in a sentence. */
export function sayEdit(edit: BoardEdit): string {
  switch (edit.kind) {
    case 'move':
      return `${refsWords(edit.refs)} moved by ${millimetres(Math.hypot(edit.byMm.x, edit.byMm.y))}`
    case 'place':
      return `${edit.ref} put at (${edit.at.x}, ${edit.at.y})`
    case 'rotate':
      return `${refsWords(edit.refs)} turned ${turnWords(edit.byDeg)}`
    case 'align':
      return `${refsWords(edit.refs)} ${lineWords[edit.to]}`
    case 'distribute':
      return `${refsWords(edit.refs)} spaced evenly`
    case 'change-side':
      return `${refsWords(edit.refs)} put on the ${edit.to}`
    case 'add-part':
      return `${edit.part.ref} added`
    case 'array':
      return `${refsWords(edit.refs)} copied ${edit.columns} by ${edit.rows}`
    case 'remove':
      return edit.refs.length > 3
        ? `${counted(edit.refs.length, 'part')} taken away`
        : `${refsWords(edit.refs)} taken away`
    case 'rename':
      return `${edit.ref} renamed ${edit.to}`
    case 'change-part':
      return `${edit.ref}: ${Object.keys(edit.change).map(fieldWords).join(', ')} changed`
    case 'name-balls':
      return `${counted(edit.balls.length, 'ball')} of ${edit.ref} named`
    case 'swap-lanes':
      return `${edit.lanes.join(' and ')} swapped in their channels`
    case 'swap-regions':
      return `${edit.lanes.join(' and ')} swapped on their package`
    case 'split-region':
      return `${edit.ref}/${edit.region} cut in two`
    case 'draw-region':
      return `region ${edit.ref}/${edit.region} drawn`
    case 'forget-region':
      return `drawn region ${edit.ref}/${edit.region} taken away`
    case 'rename-board':
      return `the board renamed ${edit.to}`
    case 'use-address-map':
      return 'the address map changed'
    case 'label-addresses':
      return `${counted(edit.rows.length, 'address', 'addresses')} labelled`
    case 'forget-labels':
      return `${counted(edit.lines.length, 'labelled address', 'labelled addresses')} taken away`
    case 'order-bits':
      return `data bits of ${edit.lane} put in order`
    case 'forget-address-map':
      return 'the address map taken away'
    default:
      return sayRailEdit(edit)
  }
}

const FIELDS: Readonly<Record<string, string>> = {
  standoffMm: 'gap',
  heatCount: 'heats',
  nominalV: 'voltage',
  tolerancePct: 'tolerance',
  ohmsToGround: 'ohms to ground',
  diodeToGround: 'diode mode',
}
const fieldWords = (field: string): string => FIELDS[field] ?? field

function sayRailEdit(edit: Extract<BoardEdit, { readonly rail: unknown }>): string {
  switch (edit.kind) {
    case 'add-rail':
      return `rail ${edit.rail.name} added`
    case 'remove-rail':
      return `rail ${edit.rail} taken away`
    case 'rename-rail':
      return `rail ${edit.rail} renamed ${edit.to}`
    case 'change-rail':
      return `rail ${edit.rail}: ${Object.keys(edit.change).map(fieldWords).join(', ')} changed`
    case 'feed':
      return `rail ${edit.rail} ${edit.fed ? 'feeds' : 'no longer feeds'} ${refsWords(edit.refs)}`
    case 'make':
      return `rail ${edit.rail} ${edit.makes ? 'made' : 'no longer made'} by ${refsWords(edit.refs)}`
    case 'branch':
      return `branch ${edit.name} of rail ${edit.rail} changed`
    case 'add-point':
      return `probe point of rail ${edit.rail} added`
    case 'move-point':
      return `probe point of rail ${edit.rail} moved`
    case 'remove-point':
      return `probe point of rail ${edit.rail} taken away`
    default:
      return edit satisfies never
  }
}
