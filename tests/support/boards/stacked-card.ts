/** The invented card whose memory stands beside the core's die, from a pattern; its name is rope work, as those of the others are knots. */
import type { z } from 'zod'
import { boardFromPattern, type boardSchema, usualSupplies } from '../../../src/board/index.ts'
import { COPPER } from './copper.ts'
import { mapOf } from './maps.ts'

const PACKAGE = 'stack-8x128'
const BUS_BITS = 2048

/** A board description as it stands in its file. */
export function stackedCard(): z.input<typeof boardSchema> {
  const board = boardFromPattern({
    name: 'becket-2',
    busBits: BUS_BITS,
    package: PACKAGE,
    sides: 'one',
    supplies: usualSupplies(PACKAGE, BUS_BITS),
  })
  if (!board.ok) throw new Error(JSON.stringify(board.faults))
  const { name, format, version, note: _, parts, ...rest } = board.value.description
  const channelIds = rest.memory.channels.map(({ id }) => id)
  return {
    $schema: './schema.json',
    format,
    version,
    name,
    note: 'Two stacks beside the die of the core, 2048 bit, 16 channels, 16 GiB. Invented: no real card is like it.',
    ...rest,
    copper: COPPER,
    parts: parts.map((part) => (part.kind === 'core' ? { ...part, ...OF_CORE } : part)),
    addressMap: mapOf({ addressBits: 34, modulus: 1, xorBits: [11, 10, 9, 8], restBits: 34 }, channelIds),
  }
}

/** As of the other cards; the price is that of a core with its stacks. */
const OF_CORE = {
  jointAlloy: 'SAC305',
  moistureLevel: '4',
  maxBodyC: 245,
  bonding: 'none',
  heatCount: 1,
  price: 640,
} as const
