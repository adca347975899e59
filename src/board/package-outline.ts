/** What a package outline file may say. The zod schema is the one source of its type. Units mm; A1 is upper left seen from the top. */
import { say } from '../base/index.ts'
import { z } from 'zod'

const name = z.string().min(1).max(120)
const ball = z.string().regex(/^[A-Z]{1,2}[1-9][0-9]?$/, say('a ball name such as G2'))
const row = z.string().regex(/^[A-Z]{1,2}$/, say('a row name such as AB'))
const column = z.int().min(1).max(99)

const packageRegionSchema = z.strictObject({
  name,
  role: z.enum(['lane', 'command', 'power']),
  rows: z.tuple([row, row]).describe('first and last row of the patch, as the grid lists them'),
  columns: z.tuple([column, column]).describe('first and last column of the patch'),
  dq: z.array(ball).min(1).max(64).optional().describe('of a lane: ball of data bit i, where the ball map is known'),
  bitCount: z.int().min(1).max(64).optional().describe('of a lane whose ball map is not known'),
  serves: z.array(name).optional().describe('lane regions that fail with this one; all of the part where left out'),
})
export type PackageRegion = z.infer<typeof packageRegionSchema>

export const packageOutlineSchema = z
  .strictObject({
    $schema: z.string().optional(),
    format: z.literal('liftmap-package'),
    version: z.literal(1),
    name,
    kind: z.enum(['memory', 'core']),
    title: z.string().max(200),
    source: z.string().min(1).max(2000).describe('where each figure is from; `from memory` where it was not read'),
    body: z.strictObject({
      widthMm: z.number().positive().max(200),
      lengthMm: z.number().positive().max(200),
      heightMm: z.number().positive().max(20),
    }),
    standoffMm: z.number().nonnegative().max(2).describe('gap between mask and body after soldering'),
    joints: z
      .enum(['balls', 'bumps'])
      .default('balls')
      .describe(
        'bumps: thousands on the core’s substrate, not listed; rows and columns of the grid then only place the regions',
      ),
    ballDiameterMm: z.number().positive().max(2),
    ballCount: z.int().nonnegative().max(20_000).describe('must agree with the grid; 0 for bumps'),
    grid: z.strictObject({
      pitchXMm: z.number().positive().max(5),
      pitchYMm: z.number().positive().max(5),
      columns: z
        .array(column)
        .min(1)
        .max(99)
        .describe('populated columns, ascending; the field is centred on the body'),
      rows: z.array(row).min(1).max(99).describe('all rows from the top down, empty ones too'),
      emptyRows: z.array(row).optional(),
      absent: z.array(ball).optional().describe('single balls that are not there'),
    }),
    regions: z.array(packageRegionSchema).max(200),
    signals: z.record(ball, z.string().max(80)).optional().describe('balls by name; those in `dq` need not stand here'),
    maxBodyC: z.number().min(50).max(400).optional(),
    moistureLevel: z.enum(['1', '2', '2a', '3', '4', '5', '5a', '6']).optional(),
  })
  .describe('A Liftmap package outline')
export type PackageOutline = z.infer<typeof packageOutlineSchema>
