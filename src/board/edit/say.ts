/** An edit in words: what a history lists, and the button that undoes it says. */
import { joined, millimetres, say, someOf } from '../../base/index.ts'
import { partFields, turnWords } from '../compare.ts'
import type { BoardEdit } from './edits.ts'

const refsWords = (refs: readonly string[]): string => someOf(refs, 3)

const lineWords = {
  left: say('lined up at their left edges'),
  right: say('lined up at their right edges'),
  top: say('lined up at their top edges'),
  bottom: say('lined up at their bottom edges'),
  'centre-x': say('lined up one above the other'),
  'centre-y': say('lined up side by side'),
} as const

/** Such as `U13 moved by 2.5 mm`: no full stop, ready to stand in a sentence. */
export function sayEdit(edit: BoardEdit): string {
  switch (edit.kind) {
    case 'move':
      return say('{refs} moved by {x}', {
        refs: refsWords(edit.refs),
        x: millimetres(Math.hypot(edit.byMm.x, edit.byMm.y)),
      })
    case 'place':
      return say('{ref} put at ({x}, {y})', { ref: edit.ref, x: edit.at.x, y: edit.at.y })
    case 'rotate':
      return say('{refs} turned {byDeg}', { refs: refsWords(edit.refs), byDeg: turnWords(edit.byDeg) })
    case 'align':
      return `${refsWords(edit.refs)} ${lineWords[edit.to]}`
    case 'distribute':
      return say('{refs} spaced evenly', { refs: refsWords(edit.refs) })
    case 'change-side':
      return say('{refs} put on the {to, select, top {top} other {bottom}}', {
        refs: refsWords(edit.refs),
        to: edit.to,
      })
    case 'add-part':
      return say('{ref} added', { ref: edit.part.ref })
    case 'array':
      return say('{refs} copied {columns} by {rows}', {
        refs: refsWords(edit.refs),
        columns: edit.columns,
        rows: edit.rows,
      })
    case 'remove':
      return edit.refs.length > 3
        ? say('{parts, plural, one {# part} other {# parts}} taken away', { parts: edit.refs.length })
        : say('{refs} taken away', { refs: refsWords(edit.refs) })
    case 'rename':
      return say('{ref} renamed {to}', { ref: edit.ref, to: edit.to })
    case 'change-part':
      return say('{ref}: {change} changed', {
        ref: edit.ref,
        change: Object.keys(edit.change).map(fieldWords).join(', '),
      })
    case 'name-balls':
      return say('{balls, plural, one {# ball} other {# balls}} of {ref} named', {
        balls: edit.balls.length,
        ref: edit.ref,
      })
    case 'swap-lanes':
      return say('{lanes} swapped in their channels', { lanes: joined(edit.lanes) })
    case 'swap-regions':
      return say('{lanes} swapped on their package', { lanes: joined(edit.lanes) })
    case 'split-region':
      return say('{ref}/{region} cut in two', { ref: edit.ref, region: edit.region })
    case 'draw-region':
      return say('region {ref}/{region} drawn', { ref: edit.ref, region: edit.region })
    case 'forget-region':
      return say('drawn region {ref}/{region} taken away', { ref: edit.ref, region: edit.region })
    case 'rename-board':
      return say('the board renamed {to}', { to: edit.to })
    case 'use-address-map':
      return say('the address map changed')
    case 'label-addresses':
      return say('{addresses, plural, one {# address} other {# addresses}} labelled', { addresses: edit.rows.length })
    case 'forget-labels':
      return say('{addresses, plural, one {# labelled address} other {# labelled addresses}} taken away', {
        addresses: edit.lines.length,
      })
    case 'order-bits':
      return say('data bits of {lane} put in order', { lane: edit.lane })
    case 'forget-address-map':
      return say('the address map taken away')
    default:
      return sayRailEdit(edit)
  }
}

const FIELDS: Readonly<Record<string, string>> = {
  ...partFields,
  heatCount: say('heats'),
  nominalV: say('voltage'),
  tolerancePct: say('tolerance'),
  ohmsToGround: say('ohms to ground'),
  diodeToGround: say('diode mode'),
}
const fieldWords = (field: string): string => FIELDS[field] ?? field

function sayRailEdit(edit: Extract<BoardEdit, { readonly rail: unknown }>): string {
  switch (edit.kind) {
    case 'add-rail':
      return say('rail {name} added', { name: edit.rail.name })
    case 'remove-rail':
      return say('rail {rail} taken away', { rail: edit.rail })
    case 'rename-rail':
      return say('rail {rail} renamed {to}', { rail: edit.rail, to: edit.to })
    case 'change-rail':
      return say('rail {rail}: {change} changed', {
        rail: edit.rail,
        change: Object.keys(edit.change).map(fieldWords).join(', '),
      })
    case 'feed':
      return edit.fed
        ? say('rail {rail} feeds {refs}', { rail: edit.rail, refs: refsWords(edit.refs) })
        : say('rail {rail} no longer feeds {refs}', { rail: edit.rail, refs: refsWords(edit.refs) })
    case 'make':
      return edit.makes
        ? say('rail {rail} made by {refs}', { rail: edit.rail, refs: refsWords(edit.refs) })
        : say('rail {rail} no longer made by {refs}', { rail: edit.rail, refs: refsWords(edit.refs) })
    case 'branch':
      return say('branch {name} of rail {rail} changed', { name: edit.name, rail: edit.rail })
    case 'add-point':
      return say('probe point of rail {rail} added', { rail: edit.rail })
    case 'move-point':
      return say('probe point of rail {rail} moved', { rail: edit.rail })
    case 'remove-point':
      return say('probe point of rail {rail} taken away', { rail: edit.rail })
    default:
      return edit satisfies never
  }
}
