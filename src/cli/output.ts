/** What each verb prints, as zod schemas: the fields of `liftmap VERB` that can be counted on. */
import { say } from '../base/index.ts'
import { z } from 'zod'
import { quantitySchema, railUps, stagePointSchema } from '../measure/index.ts'
import { stepActions } from '../plan/index.ts'

const probability = z.number().min(0).max(1)
const count = z.int().nonnegative()

export const faultOutput = z.object({
  path: z.string(),
  found: z.string(),
  expected: z.string(),
  todo: z.string().optional(),
})

export const boardOutput = z
  .object({
    ok: z.boolean(),
    name: z.string().optional(),
    parts: z.record(z.string(), count).describe('how many of each kind'),
    channels: count,
    lanes: count,
    rails: count,
    faults: z.array(faultOutput),
    untold: z.array(z.string()).describe('what the file does not tell, and remarks'),
  })
  .describe('liftmap board')

export const whereOutput = z
  .array(
    z.object({
      address: z.string(),
      channel: z.string().nullable().describe('null: the address is not mapped to memory'),
      part: z.string().nullable(),
      row: count.optional(),
      bank: count.optional(),
      column: count.optional(),
    }),
  )
  .describe('liftmap where')

export const tallyOutput = z
  .object({
    rows: z.object({ read: count, unreadable: count, unmapped: count, skipped: count }),
    troubles: z.array(z.object({ line: count, text: z.string(), why: z.string() })),
    level: z.enum(['words', 'labels', 'table']),
    sure: z.enum(['sure', 'unsure', 'unknown']).describe('whether it is surely read right'),
    why: z.array(z.string()),
    receipts: z.array(z.object({ line: count, text: z.string(), means: z.string() })),
    others: z
      .array(z.object({ recipe: z.unknown(), parts: z.array(z.string()) }))
      .describe('other readings, and the parts that each blames'),
    foreign: z
      .array(z.object({ name: z.string(), means: z.union([z.string(), z.array(z.string())]).optional() }))
      .describe('names in it that are not the board’s, and what they are taken to mean'),
    patterns: z.array(z.string()).describe('systems that such names may follow; none is taken without --place'),
    remarks: z.array(z.string()),
    isWhole: z.boolean().describe('false where the report breaks off'),
    recipe: z.unknown(),
    parts: z.array(
      z.object({
        ref: z.string(),
        errors: count,
        signature: z.string(),
        sentence: z.string(),
        channels: z.array(
          z.object({
            id: z.string(),
            lanes: z.array(
              z.object({
                id: z.string(),
                errors: count,
                state: z.enum(['fail', 'pass', 'untested']),
                bits: z.array(count),
              }),
            ),
          }),
        ),
      }),
    ),
  })
  .describe('liftmap tally')

export const reachOutput = z
  .object({
    spills: z.array(
      z.object({
        mark: z.string(),
        radiusMm: z.number().nonnegative(),
        areaMm2: z.number().nonnegative(),
        extent: z.string().describe('how far it lies about its point, in words'),
        parts: z.array(z.object({ ref: z.string(), probability })),
        notes: z.array(z.string()),
      }),
    ),
    radiusMm: z.number().nonnegative().describe('of the first spill'),
    areaMm2: z.number().nonnegative(),
    parts: z.array(z.object({ ref: z.string(), probability })).describe('the highest over all spills'),
  })
  .describe('liftmap reach')

const outcomeOutput = z.object({
  probability,
  parts: z.array(z.object({ ref: z.string(), before: probability, after: probability })),
  lift: z.array(z.string()).describe('the lift list then'),
  sentence: z.string(),
})

const checkOutput = z.object({
  check: z.string().describe('id in the catalogue of checks'),
  at: z.string(),
  question: z.string(),
  minutes: z.number().positive(),
  bits: z.number().nonnegative().describe('expected information about which parts need lifting'),
  bitsPerMinute: z.number().nonnegative(),
  saves: z.number().nonnegative().describe('expected cost that knowing it saves, its own minutes not counted'),
  ifFound: outcomeOutput,
  ifNot: outcomeOutput,
  entry: z.string().describe('where its outcome is entered'),
  powered: z
    .boolean()
    .describe('the card is under power while it is done; such checks wait until nothing speaks against it'),
  caution: z.string().optional(),
})

const proposedPlanFields = {
  steps: z
    .array(
      z.object({
        action: z
          .enum([
            'check',
            'take-up',
            'wash',
            'lift',
            'reball',
            'replace',
            'find-short',
            'repair-around',
            'run-again',
            'hand-back',
            'return',
          ])
          .describe('lift: take off and look under; return: send it back unrepaired'),
        refs: z.array(z.string()),
        // oxlint-disable-next-line unicorn/no-thenable -- the field's name is that of the design
        then: z.string().describe('what then depends on what is seen; empty where the next step follows in any case'),
      }),
    )
    .describe('as it most likely goes'),
  expectedCost: z.number().describe('work, parts, what is lost where it fails, comebacks'),
  minutes: z.number().nonnegative(),
  works: probability.optional().describe('that the card works in the end; left out where nothing was reckoned'),
}

export const suspectsOutput = z
  .object({
    stories: z.array(
      z.object({ causes: z.array(z.object({ kind: z.string(), at: z.string() })), probability, sentence: z.string() }),
    ),
    remainder: probability,
    lift: z.array(z.string()),
    parts: z.array(
      z.object({
        ref: z.string(),
        probability: probability.describe('that something is wrong with it'),
        comesOff: probability.describe('that it must come off for that: less what a wash that is still due is to cure'),
        lift: z.boolean(),
        remedy: z.object({ action: z.enum(['leave', 'wash', 'reball', 'replace']), because: z.string() }),
        wrong: z
          .object({ die: probability, joints: probability, beneath: probability, nothing: probability })
          .describe('what is wrong with it: it itself, its joints, what lies under it, nothing'),
        why: z.array(z.string()),
      }),
    ),
    proposal: z
      .object({
        ...proposedPlanFields,
        others: z.array(z.object({ name: z.string(), ...proposedPlanFields })).describe('cheapest first'),
      })
      .describe('the cheapest plan of remedies in expectation'),
    spill: z.object({ at: z.object({ x: z.number(), y: z.number() }), sdMm: z.number(), probability }).nullable(),
    checks: z
      .array(checkOutput)
      .optional()
      .describe(
        'with --checks: most expected saving per minute first; those under power last while power is not known',
      ),
    decisionBits: z.number().nonnegative().optional().describe('with --checks: how open the lift decision is'),
    leftOut: z.array(z.string()),
    lookFirst: z.array(z.string()).describe('before any heat: rails that read short'),
    cautions: z.array(z.string()),
  })
  .describe('liftmap suspects')

export const settingOutput = z.object({
  side: z.enum(['top', 'bottom']),
  preheatC: z.number(),
  preheatS: z.number(),
  preheater: z
    .object({ at: z.object({ x: z.number(), y: z.number() }), widthMm: z.number(), lengthMm: z.number() })
    .optional()
    .describe('the patch that the plate covers; the whole board where left out'),
  airC: z.number(),
  airRamp: z
    .object({ fromC: z.number(), overS: z.number() })
    .optional()
    .describe('the air starts at fromC and reaches airC evenly after overS; at airC from the start where left out'),
  airS: z.number(),
  nozzle: z.object({ name: z.string(), shape: z.enum(['round', 'square']), sizeMm: z.number() }),
  at: z.object({ x: z.number(), y: z.number() }),
  shields: z.array(z.object({ ref: z.string(), kind: z.enum(['tape', 'heat-sink']) })),
})

const jointsOutput = z
  .object({ coldestLeastC: z.number(), hottestMostC: z.number() })
  .describe('what the coldest joint is to reach, and what the hottest may not pass, °C')

export const heatOutput = z
  .object({
    target: z.string(),
    purpose: z.enum(['lift', 'refit']),
    settings: settingOutput.nullable().describe('null: it can not be done with this equipment'),
    joints: jointsOutput.optional(),
    liftFromS: z.number().nonnegative().optional().describe('seconds of air after which every joint is liquid'),
    short: z
      .string()
      .optional()
      .describe('of a refit outside of the usual window or with a wider nozzle: what is had instead'),
    missing: z.array(z.string()),
    minutes: z.number().nonnegative(),
    parts: z
      .array(
        z.object({
          ref: z.string(),
          peakC: z.number().describe('highest temperature of its joints'),
          bodyPeakC: z.number(),
          aboveLiquidusS: z.number().nonnegative(),
          melts: z.boolean(),
          mayCrack: z.boolean().describe('a package whose joints get hot enough to crack without melting'),
          overLimit: z.boolean(),
          remarks: z.array(z.string()),
        }),
      )
      .describe('the target first, then hottest first'),
    cautions: z.array(z.string()),
  })
  .describe('liftmap heat')

const stepOutput = z.object({
  n: z.int().positive(),
  isNew: z.boolean().optional().describe('it came into the plan after the work had begun'),
  action: z.enum(stepActions),
  refs: z.array(z.string()),
  minutes: z.number().nonnegative(),
  hours: z.number().nonnegative().optional().describe('in the oven'),
  cost: z.number().nonnegative(),
  why: z.string(),
  settings: settingOutput.nullable(),
  joints: jointsOutput.optional(),
  liftFromS: z.number().nonnegative().optional().describe('seconds of air after which every joint is liquid'),
  handsOffUntilC: z.number().optional().describe('of a refit: below this the joints are firm'),
  short: z
    .string()
    .optional()
    .describe('of a refit outside of the usual window or with a wider nozzle: what is had instead'),
  cautions: z.array(z.string()),
})

const doneOutput = z.object({
  n: z.int().positive().describe('its number in the plan, which it keeps'),
  action: z.enum(stepActions),
  refs: z.array(z.string()),
  outcome: z.enum(['done', 'failed', 'skipped']),
  on: z.string().optional(),
})

const planBody = z.object({
  steps: z.array(stepOutput),
  minutes: z.number().nonnegative(),
  cost: z.number().nonnegative(),
  materials: z.array(z.object({ what: z.string(), amount: z.string(), why: z.string() })),
  unbaked: z.string().describe('why nothing is baked, and when something would be; empty where something is'),
  optimal: z.string(),
})

export const planOutput = planBody
  .extend({
    done: z.array(doneOutput).describe('what was noted so far, in order'),
    alternative: planBody.extend({ differsIn: z.string(), costsMore: z.number() }).nullable(),
    success: probability.describe(
      say(
        'that the card works once the plan was done: what each remedy cures, losses in lifting, refits, harm in passing',
      ),
    ),
    worth: z.object({
      successProbability: probability,
      costOfRepair: z.number(),
      expectedGain: z.number(),
      breakEvenValue: z.number().nullable().describe('null: no value of the card would make it pay'),
      sentence: z.string(),
    }),
    whole: z
      .object({ works: probability, money: z.number(), gain: z.number() })
      .nullable()
      .describe('of all that is proposed, whichever way it ends; null: nothing is'),
    cannot: z.array(z.object({ ref: z.string(), missing: z.array(z.string()) })),
    changes: z.array(z.string()).describe('what the logged passes changed'),
    noLiftMends: z.array(z.string()).describe('what is suspected, is no part, and is to be looked at before any heat'),
    notes: z.array(z.string()),
  })
  .describe('liftmap plan')

const laneVerdict = z.enum(['fresh', 'still', 'not-told', 'untested', 'gone', 'clean'])
const laneState = z.enum(['fail', 'pass', 'untested'])
const bits = z.array(count).describe('data bits of the lane, from 0')
const meterValue = z.union([z.number(), z.enum(['open', 'short'])]).nullable()

export const powerOutput = z
  .object({
    verdict: z.enum(['no', 'unknown', 'nothing-against']).describe('never that power is harmless'),
    words: z.string().describe('the verdict as the screen says it'),
    phase: z.enum(['before', 'after']).describe('readings before the work on the card, or after it'),
    reasons: z.array(z.string()).describe('weightiest first'),
    lines: z.array(
      z.object({
        line: z.string().describe('name of the rail, or ref of the stage'),
        kind: z.enum(['rail', 'supply', 'stage']),
        point: stagePointSchema.optional(),
        reading: z.string().nullable().describe('as it counts, the leads taken off; null: not measured'),
        verdict: z.string(),
        why: z.string(),
        quantity: quantitySchema.optional().describe('left out: ohms'),
      }),
    ),
    underPower: z
      .object({
        order: z.array(z.object({ rail: z.string(), state: z.enum(railUps) })),
        first: z.string().nullable().describe('the first rail that did not come up, where all before it are up'),
        sentence: z.string(),
      })
      .optional()
      .describe('left out while no voltage of a rail was read'),
    cautions: z.array(z.string()),
  })
  .describe('liftmap power')

export const proofOutput = z
  .object({
    passes: count.describe('complete runs after the work without an error'),
    failingPasses: count.describe('runs of reports with errors, all taken as failing'),
    boundPerPass95: probability
      .nullable()
      .describe('upper bound at 95 % on the chance that one more run fails, exact binomial; null: no run is counted'),
    ruleOfThree95: probability.nullable().describe('3/n; null where a run failed or none is counted'),
    bound: z.string(),
    gone: z.array(z.string()).describe('lanes that failed before and pass now'),
    fresh: z.array(z.string()).describe('lanes that fail now and did not fail before'),
    still: z.array(z.string()).describe('lanes that fail before and after'),
    untested: z.array(z.string()).describe('lanes that no run after the work covers; those that failed before first'),
    notTold: z.array(z.string()).describe('lanes in a part or channel with errors that are placed in no lane'),
    lanes: z.array(
      z.object({
        id: z.string(),
        part: z.string(),
        channel: z.string(),
        verdict: laneVerdict,
        before: laneState,
        after: laneState,
        errorsBefore: count,
        errorsAfter: count,
        trend: z.enum(['fewer', 'more', 'same']).nullable(),
        bits: z.object({ gone: bits, fresh: bits, still: bits }),
      }),
    ),
    parts: z.array(
      z.object({
        ref: z.string(),
        verdict: laneVerdict.describe('the gravest of its lanes'),
        errorsBefore: count,
        errorsAfter: count,
        signatureBefore: z.string().nullable(),
        signatureAfter: z.string().nullable(),
      }),
    ),
    runs: z
      .array(
        z.object({
          name: z.string(),
          passes: count.nullable(),
          kind: z.enum(['clean', 'failing', 'unsure', 'says-nothing', 'not-read', 'overtaken']),
          untestedLanes: count,
        }),
      )
      .describe('runs after the work'),
    measured: z.array(
      z.object({
        line: z.string(),
        kind: z.enum(['rail', 'supply', 'stage']),
        point: stagePointSchema.optional(),
        quantity: quantitySchema,
        before: meterValue,
        after: meterValue,
      }),
    ),
    notProven: z.array(z.string()),
    note: z.string(),
    cautions: z.array(z.string()),
  })
  .describe('liftmap proof')

export const outputSchemas = {
  board: boardOutput,
  where: whereOutput,
  tally: tallyOutput,
  reach: reachOutput,
  suspects: suspectsOutput,
  heat: heatOutput,
  plan: planOutput,
  power: powerOutput,
  proof: proofOutput,
}
