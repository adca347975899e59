/** What a board is like, in a few words: how many packages, how they stand about the core, how wide the bus, which sides. */
import { say } from '../../base/index.ts'
import { standsOnBoard } from '../lanes.ts'
import type { BoardModel, PlacedPart } from '../model.ts'

/** Such as `8 packages in a ring, 256 bit, one side`; a board without memory is told by its parts. */
export function boardLikeness(model: BoardModel): string {
  if (model.memories.length === 0)
    return say('{parts, plural, one {# part} other {# parts}}, no memory known', { parts: model.parts.length })
  const stacked = model.memories.every((part) => !standsOnBoard(part))
  const count = model.memories.length
  const packages = stacked
    ? say('{count, plural, one {# stack} other {# stacks}} on the core', { count })
    : say('{length, plural, one {# package} other {# packages}}', { length: count })
  const bits = model.lanes.reduce((sum, lane) => sum + lane.bitCount, 0)
  const sides = new Set(model.memories.map(({ side }) => side)).size
  const words = [
    `${packages}${stacked ? '' : standing(model)}`,
    bits > 0 ? `${bits} bit` : '',
    sides > 1 ? say('both sides') : say('one side'),
  ]
  return words.filter((word) => word !== '').join(', ')
}

/** By how many sides of the core have a package. */
function standing({ core, memories }: BoardModel): string {
  if (core === undefined) return ''
  const edges = new Set(memories.map((memory) => edgeTowards(core, memory))).size
  if (edges === 4) return say(' in a ring')
  if (edges === 3) return say(' on three sides of the core')
  return edges === 2 ? say(' on two sides of the core') : say(' beside the core')
}

function edgeTowards(core: PlacedPart, memory: PlacedPart): string {
  const dx = memory.placement.at.x - core.placement.at.x
  const dy = memory.placement.at.y - core.placement.at.y
  if (Math.abs(dx) > Math.abs(dy)) return dx > 0 ? 'right' : 'left'
  return dy > 0 ? 'top' : 'bottom'
}
