/** What `liftmap learn` prints, as zod schemas: of an address map, and of a lane’s data bits. */
import { z } from 'zod'
import { addressMapSchema } from '../board/index.ts'

const count = z.int().nonnegative()
const bit = z.int().min(0).max(51)
const hex = z.string().regex(/^0x[0-9a-f]+$/)
const place = {
  residue: count.describe('n mod modulus; 0 where there is no modulus'),
  values: z.array(z.union([z.literal(0), z.literal(1)])).describe('value of each function'),
}

export const learnOutput = z
  .object({
    rows: count,
    functions: z.array(hex).describe('masks: the parity of (address AND mask), or of the rest, is one for a place'),
    functionsFrom: z
      .array(z.enum(['address', 'rest']))
      .describe('what each mask is over: the address, or what the modulus leaves, n div modulus above the other bits'),
    modulus: z.int().positive().describe('n mod modulus is one for a place; 1: there is none'),
    shift: bit.describe('lowest bit of n; 0 where there is no modulus'),
    gathered: z.array(bit).describe('address bits that make n, lowest first'),
    rank: count.describe('how many functions are independent'),
    addressBits: z.int().min(0).max(52).describe('bits of the highest address'),
    undeterminedBits: z.array(bit).describe('address bits of which it can not be told whether a function holds them'),
    settled: z.boolean().describe('false: too few lines, and the functions are those still possible'),
    contradictions: z.array(count).describe('lines whose label does not fit the rest'),
    nextAddresses: z.array(hex).describe('to be labelled next; empty where that would tell nothing new'),
    byPackage: z
      .boolean()
      .describe(
        'true: labels hold several places, as packages of several channels do, and tell no channels of a package',
      ),
    labels: z.array(
      z.object({
        label: z.string(),
        rows: count,
        ...place,
        places: z.array(z.object(place)).describe('all of them; residue and values beside are those of the first'),
      }),
    ),
    places: z
      .array(
        z.object({
          ...place,
          package: z.string().nullable().describe('label of the package there; null: none is known'),
          channel: z
            .string()
            .nullable()
            .describe('label of the one channel of that package there; null: can not be told'),
        }),
      )
      .describe('addresses that agree in residue and functions, by residue, then values'),
    notToldApart: z.array(z.array(z.string())).describe('labels that come out at the same places'),
    meaning: z
      .array(z.object({ label: z.string(), is: z.string().nullable() }))
      .describe('for each label ?… the known label at its place'),
    addressMap: addressMapSchema
      .nullable()
      .describe('for a board description, a package once for each of its places; null where a place has no label yet'),
  })
  .describe('liftmap learn')

export const learnLaneOutput = z
  .object({
    lane: z.string().nullable().describe('null where its balls were given'),
    rows: count,
    bits: z.array(
      z.object({
        bit: count.describe('of the lane'),
        dq: count.nullable().describe('DQ number of the package’s lane; null: not known'),
        ball: z.string().nullable(),
      }),
    ),
    swaps: z.array(count).nullable().describe('for the lane in a board file; null where a bit is not known'),
    undeterminedBits: z.array(count),
    nextBalls: z.array(z.string()).describe('with these known too, so is every bit'),
    contradictions: z.array(count).describe('lines that do not fit what the others tell'),
  })
  .describe('liftmap learn --lane')
