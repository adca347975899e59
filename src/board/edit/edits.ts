/** The edits that a board may be given, as data: what the editor asks for and what a history can tell in words. */
import { z } from 'zod'
import {
  addressMapSchema,
  labelledAddressSchema,
  laneSchema,
  padSchema,
  partKindSchema,
  partSchema,
  pointSchema,
  railSchema,
  sideSchema,
} from '../schema.ts'

const name = z.string().min(1).max(120)
const refs = z.array(name).min(1).max(20_000)
const clearable = <T extends z.ZodType>(schema: T) => schema.nullable().optional()

export const alignments = ['left', 'right', 'top', 'bottom', 'centre-x', 'centre-y'] as const

const placing = [
  z.strictObject({ kind: z.literal('move'), refs, byMm: pointSchema }),
  z.strictObject({ kind: z.literal('place'), ref: name, at: pointSchema }),
  z.strictObject({
    kind: z.literal('rotate'),
    refs,
    byDeg: z.number().min(-360).max(360).describe('counter-clockwise seen from the top'),
    about: z.enum(['each', 'middle']).describe('each about its own place, or all about the middle of them'),
  }),
  z.strictObject({ kind: z.literal('align'), refs, to: z.enum(alignments) }),
  z.strictObject({ kind: z.literal('distribute'), refs, along: z.enum(['x', 'y']) }),
  z.strictObject({ kind: z.literal('change-side'), refs, to: sideSchema }),
] as const

const ofParts = [
  z.strictObject({ kind: z.literal('add-part'), part: partSchema }),
  z.strictObject({
    kind: z.literal('array'),
    refs,
    columns: z.int().min(1).max(200),
    rows: z.int().min(1).max(200),
    pitchMm: pointSchema.describe('from one copy to the next'),
  }),
  z.strictObject({ kind: z.literal('remove'), refs }),
  z.strictObject({ kind: z.literal('rename'), ref: name, to: name }),
  z.strictObject({
    kind: z.literal('change-part'),
    ref: name,
    change: z.strictObject({
      kind: partKindSchema.optional(),
      value: clearable(partSchema.shape.value.unwrap()),
      package: clearable(partSchema.shape.package.unwrap()),
      carriedBy: clearable(partSchema.shape.carriedBy.unwrap()),
      body: clearable(partSchema.shape.body.unwrap()),
      standoffMm: clearable(partSchema.shape.standoffMm.unwrap()),
      bonding: partSchema.shape.bonding.unwrap().optional(),
      heatCount: clearable(partSchema.shape.heatCount.unwrap()),
      price: clearable(partSchema.shape.price.unwrap()),
    }),
  }),
] as const

const ofBalls = z.strictObject({
  kind: z.literal('name-balls'),
  ref: name,
  balls: z
    .array(z.strictObject({ ball: name, signal: padSchema.shape.signal, net: padSchema.shape.net }))
    .min(1)
    .max(20_000),
})

const ofLanes = [
  z.strictObject({
    kind: z.literal('swap-lanes'),
    lanes: z.tuple([name, name]).describe('ids; each takes the other’s place in its channel'),
  }),
  z.strictObject({
    kind: z.literal('swap-regions'),
    lanes: z.tuple([name, name]).describe('ids of two lanes of one part; each takes the other’s region and balls'),
  }),
  z.strictObject({
    kind: z.literal('split-region'),
    ref: name,
    region: name,
    along: z.enum(['x', 'y']).describe('of the part’s own drawing: x cuts it into left and right'),
    share: z.number().min(0.02).max(0.98).describe('of its extent that stays with the old name'),
    newName: name,
    lanes: z.array(name).max(64).describe('ids of the lanes that go to the new region'),
  }),
  z.strictObject({
    kind: z.literal('draw-region'),
    ref: name,
    region: name.describe('one that has this name is drawn anew'),
    corners: z.tuple([pointSchema, pointSchema]).describe('opposite corners of a box on the board'),
    lanes: z.array(name).max(1024).describe('ids of lanes that end in it from now on'),
  }),
  z.strictObject({
    kind: z.literal('forget-region'),
    ref: name,
    region: name.describe('a drawn one: the package’s or the derived one counts again'),
  }),
] as const

const ofRails = [
  z.strictObject({ kind: z.literal('add-rail'), rail: railSchema }),
  z.strictObject({ kind: z.literal('remove-rail'), rail: name }),
  z.strictObject({ kind: z.literal('rename-rail'), rail: name, to: name }),
  z.strictObject({
    kind: z.literal('change-rail'),
    rail: name,
    change: z.strictObject({
      nominalV: clearable(railSchema.shape.nominalV.unwrap()),
      tolerancePct: clearable(railSchema.shape.tolerancePct.unwrap()),
      ohmsToGround: clearable(railSchema.shape.ohmsToGround.unwrap()),
      diodeToGround: clearable(railSchema.shape.diodeToGround.unwrap()),
    }),
  }),
  z.strictObject({ kind: z.literal('feed'), rail: name, refs, fed: z.boolean() }),
  z.strictObject({ kind: z.literal('make'), rail: name, refs, makes: z.boolean() }),
  z.strictObject({
    kind: z.literal('branch'),
    rail: name,
    name,
    refs: z.array(name).max(20_000).describe('that it feeds; none takes the branch away'),
  }),
  z.strictObject({ kind: z.literal('add-point'), rail: name, point: railSchema.shape.points.unwrap().element }),
  z.strictObject({ kind: z.literal('move-point'), rail: name, index: z.int().nonnegative(), at: pointSchema }),
  z.strictObject({ kind: z.literal('remove-point'), rail: name, index: z.int().nonnegative() }),
  z.strictObject({ kind: z.literal('rename-board'), to: name }),
] as const

const ofAddresses = [
  z.strictObject({ kind: z.literal('use-address-map'), map: addressMapSchema }),
  z.strictObject({ kind: z.literal('forget-address-map') }),
  z.strictObject({ kind: z.literal('label-addresses'), rows: z.array(labelledAddressSchema).min(1).max(20_000) }),
  z.strictObject({
    kind: z.literal('forget-labels'),
    lines: z.array(z.int().positive()).min(1).max(20_000).describe('numbers from 1 in the board’s list'),
  }),
  z.strictObject({
    kind: z.literal('order-bits'),
    lane: name.describe('id'),
    swaps: laneSchema.shape.swaps.unwrap(),
  }),
] as const

export const boardEditSchema = z.discriminatedUnion('kind', [
  ...placing,
  ...ofParts,
  ofBalls,
  ...ofLanes,
  ...ofRails,
  ...ofAddresses,
])
export type BoardEdit = z.infer<typeof boardEditSchema>
export type EditOf<K extends BoardEdit['kind']> = Extract<BoardEdit, { kind: K }>
export type Alignment = (typeof alignments)[number]
