/** What `liftmap learn` prints, as zod schemas: of an address map, and of a lane’s data bits. */
import { say } from '../base/index.ts'
import { z } from 'zod'
import { addressMapSchema } from '../board/index.ts'

const count = z.int().nonnegative()
const bit = z.int().min(0).max(51)
const hex = z.string().regex(/^0x[0-9a-f]+$/)
const place = {
  residue: count.describe(say('n mod modulus; 0 where there is no modulus')),
  values: z.array(z.union([z.literal(0), z.literal(1)])).describe(say('value of each function')),
}

export const learnOutput = z
  .object({
    rows: count,
    functions: z
      .array(hex)
      .describe(say('masks: the parity of (address AND mask), or of the rest, is one for a place')),
    functionsFrom: z
      .array(z.enum(['address', 'rest']))
      .describe(
        say('what each mask is over: the address, or what the modulus leaves, n div modulus above the other bits'),
      ),
    modulus: z.int().positive().describe(say('n mod modulus is one for a place; 1: there is none')),
    shift: bit.describe(say('lowest bit of n; 0 where there is no modulus')),
    gathered: z.array(bit).describe(say('address bits that make n, lowest first')),
    rank: count.describe(say('how many functions are independent')),
    addressBits: z.int().min(0).max(52).describe(say('bits of the highest address')),
    undeterminedBits: z
      .array(bit)
      .describe(say('address bits of which it can not be told whether a function holds them')),
    settled: z.boolean().describe(say('false: too few lines, and the functions are those still possible')),
    contradictions: z.array(count).describe(say('lines whose label does not fit the rest')),
    nextAddresses: z.array(hex).describe(say('to be labelled next; empty where that would tell nothing new')),
    byPackage: z
      .boolean()
      .describe(
        say('true: labels hold several places, as packages of several channels do, and tell no channels of a package'),
      ),
    labels: z.array(
      z.object({
        label: z.string(),
        rows: count,
        ...place,
        places: z.array(z.object(place)).describe(say('all of them; residue and values beside are those of the first')),
      }),
    ),
    places: z
      .array(
        z.object({
          ...place,
          package: z.string().nullable().describe(say('label of the package there; null: none is known')),
          channel: z
            .string()
            .nullable()
            .describe(say('label of the one channel of that package there; null: can not be told')),
        }),
      )
      .describe(say('addresses that agree in residue and functions, by residue, then values')),
    notToldApart: z.array(z.array(z.string())).describe(say('labels that come out at the same places')),
    meaning: z
      .array(z.object({ label: z.string(), is: z.string().nullable() }))
      .describe(say('for each label ?… the known label at its place')),
    addressMap: addressMapSchema
      .nullable()
      .describe(
        say('for a board description, a package once for each of its places; null where a place has no label yet'),
      ),
  })
  .describe(say('liftmap learn'))

export const learnLaneOutput = z
  .object({
    lane: z.string().nullable().describe(say('null where its balls were given')),
    rows: count,
    bits: z.array(
      z.object({
        bit: count.describe(say('of the lane')),
        dq: count.nullable().describe(say('DQ number of the package’s lane; null: not known')),
        ball: z.string().nullable(),
      }),
    ),
    swaps: z.array(count).nullable().describe(say('for the lane in a board file; null where a bit is not known')),
    undeterminedBits: z.array(count),
    nextBalls: z.array(z.string()).describe(say('with these known too, so is every bit')),
    contradictions: z.array(count).describe(say('lines that do not fit what the others tell')),
  })
  .describe(say('liftmap learn --lane'))
