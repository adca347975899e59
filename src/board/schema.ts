/**
 * The board description: what a board file may say. The zod schema is the one source of the TypeScript types and of
 * `boards/schema.json`. Units mm and degrees, origin at the board's lower-left corner seen from the top side, x right,
 * y up, rotation counter-clockwise seen from the top. A bottom-side part stands at the place and rotation seen through
 * the board from the top; its body, pads and balls are mirrored (x of the part's own drawing changes its sign).
 */
import { say } from '../base/index.ts'
import { z } from 'zod'

const MAX_BOARD_MM = 2000
const MAX_PARTS = 20_000

const coordinateMm = z.number().min(-MAX_BOARD_MM).max(MAX_BOARD_MM)
const lengthMm = z.number().min(0.001).max(MAX_BOARD_MM)
const name = z.string().min(1).max(120)

export const pointSchema = z.strictObject({ x: coordinateMm, y: coordinateMm })
const polygonSchema = z.array(pointSchema).min(3).max(20_000)
export const sideSchema = z.enum(['top', 'bottom'])
export type Side = z.infer<typeof sideSchema>

export const partKindSchema = z.enum([
  'core',
  'memory',
  'power-stage',
  'controller',
  'inductor',
  'capacitor',
  'connector',
  'other',
])
export type PartKind = z.infer<typeof partKindSchema>

const bodySchema = z.strictObject({
  widthMm: lengthMm.describe('along x of the part’s own drawing, before rotation'),
  lengthMm: lengthMm.describe('along y of the part’s own drawing, before rotation'),
  heightMm: z.number().nonnegative().max(200),
  centre: pointSchema.optional().describe('middle of the body in the part’s own drawing; its origin where left out'),
})

export const padSchema = z.strictObject({
  number: z.string().max(40).describe('pad or ball name; empty for a pad without one; may repeat'),
  at: pointSchema.describe('in the part’s own drawing, before mirror and rotation'),
  widthMm: z.number().nonnegative().max(MAX_BOARD_MM),
  lengthMm: z.number().nonnegative().max(MAX_BOARD_MM),
  rotationDeg: z.number().optional().describe('of the pad in the part’s own drawing'),
  round: z.boolean().optional(),
  net: name.optional(),
  signal: z.string().max(200).optional().describe('the pin’s function, where the design names it'),
})
export type Pad = z.infer<typeof padSchema>

export const partSchema = z.strictObject({
  ref: name.describe('reference designator, unique on the board'),
  kind: partKindSchema,
  side: sideSchema,
  at: pointSchema,
  rotationDeg: z.number().min(-360).max(360).default(0),
  value: z.string().max(200).optional(),
  package: name.optional().describe('a package outline file in boards/packages, which gives body, balls and regions'),
  carriedBy: name
    .optional()
    .describe(
      'ref of the core on whose substrate a memory stands: it has no joints with the board and comes off with that core alone',
    ),
  body: bodySchema.optional().describe('needed where no package is named; overrides the package’s body'),
  standoffMm: z.number().nonnegative().max(20).optional().describe('gap between mask and body'),
  jointAlloy: z
    .enum(['SAC305', 'SAC405', 'SAC387', 'SAC105', 'Sn96.5Ag3.5', 'Sn99.3Cu0.7', 'Sn63Pb37', 'Sn60Pb40', 'Bi58Sn42'])
    .optional(),
  maxBodyC: z.number().min(50).max(400).optional(),
  moistureLevel: z.enum(['1', '2', '2a', '3', '4', '5', '5a', '6']).optional(),
  bonding: z
    .enum(['none', 'corner', 'edge', 'underfill'])
    .default('none')
    .describe('glue at the corners leaves the rim open; edge bond closes it; underfill seals the gap'),
  heatCount: z.int().nonnegative().max(100).optional().describe('how many times the joints have been molten so far'),
  price: z.number().nonnegative().max(1e6).optional().describe('replacement price in the shop’s currency'),
  pads: z.array(padSchema).max(20_000).optional(),
  regions: z
    .array(z.strictObject({ name, polygon: polygonSchema.describe('in the part’s own drawing') }))
    .max(1000)
    .optional()
    .describe('patches of the ball field; derived where they are not drawn'),
})
export type Part = z.infer<typeof partSchema>

export const railSchema = z.strictObject({
  name,
  nominalV: z.number().positive().max(400).optional(),
  tolerancePct: z.number().positive().max(50).optional(),
  ohmsToGround: z
    .strictObject({
      lowOhm: z.number().nonnegative(),
      highOhm: z.number().positive(),
      from: z.string().min(1).max(200).describe('where the figure is from'),
    })
    .optional(),
  diodeToGround: z
    .strictObject({
      lowV: z.number().nonnegative().max(5),
      highV: z.number().positive().max(5),
      from: z.string().min(1).max(200).describe('where the figure is from'),
    })
    .optional()
    .describe('cold, in diode mode with red on ground'),
  stages: z.array(name).max(64).default([]).describe('refs of the power stages or regulators that make it'),
  feeds: z.array(name).max(MAX_PARTS).describe('refs of the parts that it feeds'),
  branches: z
    .array(z.strictObject({ name, feeds: z.array(name).min(1).max(MAX_PARTS) }))
    .max(64)
    .default([]),
  points: z
    .array(
      z.strictObject({ side: sideSchema, at: pointSchema, part: name.optional(), pad: z.string().max(40).optional() }),
    )
    .max(1000)
    .default([])
    .describe('where a probe can reach it'),
  copper: z
    .array(
      z.strictObject({
        layer: name.describe('name of a copper layer of the board'),
        polygon: polygonSchema,
        thicknessUm: z.number().positive().max(1000).optional().describe('the layer’s where left out'),
      }),
    )
    .max(64)
    .optional()
    .describe('its planes and pours; pieces that overlap count as joined'),
})
export type Rail = z.infer<typeof railSchema>

export const laneSchema = z.strictObject({
  name: name.describe('unique within its part, such as A0; the lane’s id is part ref, dot, name'),
  part: name.optional().describe('the memory part; the channel’s part where left out (two parts may share a channel)'),
  memoryRegion: name.optional().describe('region of the memory part; the lane’s name where left out'),
  coreRegion: name.optional().describe('region of the core; derived where left out'),
  corridor: z.array(pointSchema).min(2).max(10_000).optional().describe('path on the board from core to memory'),
  corridorWidthMm: lengthMm.optional(),
  bits: z
    .array(z.strictObject({ memoryBall: z.string().max(40), coreBall: z.string().max(40).optional() }))
    .min(1)
    .max(64)
    .optional()
    .describe('data bit i of the lane is entry i; from the package’s ball map where left out'),
  swaps: z
    .array(z.int().nonnegative().max(63))
    .max(64)
    .optional()
    .describe('data bit i of the lane is the package’s DQ number swaps[i] of that lane'),
})
export type LaneDescription = z.infer<typeof laneSchema>

export const channelSchema = z.strictObject({
  id: name,
  part: name,
  lanes: z.array(laneSchema).min(1).max(16),
})
export type ChannelDescription = z.infer<typeof channelSchema>

export const hexSchema = z
  .string()
  .regex(/^0x[0-9a-fA-F]{1,13}$/, say('a hexadecimal number such as 0x12340 of at most 52 bits'))
const bitNumber = z.int().min(0).max(51)
const source = z.enum(['address', 'rest']).default('address')

export const digitSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('xor'),
    mask: hexSchema.describe('digit = parity of (source AND mask)'),
    from: source,
  }),
  z.strictObject({
    kind: z.literal('mod'),
    modulus: z.int().min(2).max(64),
    bits: z
      .array(
        z.strictObject({
          low: bitNumber,
          high: bitNumber.optional().describe('up to the top of the address where left out'),
        }),
      )
      .min(1)
      .max(16)
      .describe(
        'source bits gathered, lowest first, into the number n; digit = n mod modulus. Afterwards the rest is (n div modulus) placed above the source bits that were not gathered',
      ),
    from: source,
  }),
  z.strictObject({
    kind: z.literal('field'),
    low: bitNumber,
    high: bitNumber.describe('digit = source bits low to high'),
    from: source,
  }),
])
export type Digit = z.infer<typeof digitSchema>

const digitsSchema = z.array(digitSchema).min(1).max(52)

export const addressMapSchema = z.strictObject({
  addressBits: z.int().min(1).max(52),
  subtract: hexSchema.optional().describe('taken from the address first; addresses below it are unmapped'),
  limit: hexSchema.optional().describe('first address beyond the memory; 2^addressBits where left out'),
  channel: z.strictObject({
    digits: digitsSchema.describe('read as one mixed-radix number, first digit most significant'),
    order: z.array(name).min(1).max(4096).describe('channel ids; the number is an index into this list'),
    orderGuessed: z
      .array(name)
      .min(1)
      .max(4096)
      .optional()
      .describe('refs of parts whose channels nothing told apart: which of them stands where in the order is a guess'),
  }),
  row: digitsSchema.optional(),
  bank: digitsSchema.optional(),
  column: digitsSchema.optional(),
})
export type AddressMapDescription = z.infer<typeof addressMapSchema>

/** How one kind of report speaks of this board: by its look, what its names mean, and how it is read. */
export const reportWordsSchema = z.strictObject({
  title: name.describe('such as the report that it was learned from'),
  look: z
    .array(z.string().min(1).max(200))
    .min(1)
    .max(16)
    .describe('its most frequent lines, with numbers as #, names as @ and verdicts as !'),
  names: z
    .record(z.string().min(1).max(80), z.union([name, z.array(name).min(2).max(64)]))
    .optional()
    .describe('what its names mean: each a part, channel or lane, or several lanes such as half a package'),
  recipe: z.record(z.string(), z.json()).optional().describe('how it is read, as a recipe of the report room'),
})
export type ReportWords = z.infer<typeof reportWordsSchema>

/** An address, and what is known of the place that it lies in. */
export const labelledAddressSchema = z.strictObject({
  address: hexSchema,
  label: z
    .string()
    .min(1)
    .max(80)
    .describe('a channel or part; ?a: one part, which one is not known; !U5: any part but U5'),
})
export type LabelledAddress = z.infer<typeof labelledAddressSchema>

export const boardSchema = z
  .strictObject({
    $schema: z.string().optional(),
    format: z.literal('liftmap-board'),
    version: z.literal(1),
    name,
    note: z.string().max(4000).optional(),
    outline: polygonSchema.describe('the board’s edge, a simple polygon'),
    holes: z
      .array(
        z.union([
          z.strictObject({ at: pointSchema, diameterMm: lengthMm, plated: z.boolean().optional() }),
          z.strictObject({ polygon: polygonSchema.describe('a cut-out') }),
        ]),
      )
      .max(20_000)
      .default([]),
    thicknessMm: z.number().positive().max(20).default(1.6),
    copper: z
      .array(
        z.strictObject({
          name,
          thicknessUm: z.number().positive().max(1000),
          thicknessFrom: z.enum(['file', 'assumed']).optional().describe('assumed where nothing tells how thick it is'),
          fill: z.number().min(0).max(1).describe('share of the area that is copper'),
        }),
      )
      .max(64)
      .default([])
      .describe('copper layers from the top down'),
    parts: z.array(partSchema).min(1).max(MAX_PARTS),
    rails: z.array(railSchema).max(1000).default([]),
    memory: z.strictObject({ channels: z.array(channelSchema).max(4096) }).default({ channels: [] }),
    addressMap: addressMapSchema.optional(),
    labelledAddresses: z
      .array(labelledAddressSchema)
      .max(20_000)
      .optional()
      .describe('what the address map is learnt from'),
    reportWords: z
      .array(reportWordsSchema)
      .max(64)
      .optional()
      .describe('how reports speak of this board, each kind of report for itself; the last one counts'),
  })
  .describe('A Liftmap board description')
export type BoardDescription = z.infer<typeof boardSchema>
