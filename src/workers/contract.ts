/** The one table of what the screen may ask of the workers: what each call takes, what it gives, parsed at the border. */
import { z } from 'zod'
import type { Box, Homography, Result } from '../base/index.ts'
import { type BoardModel, labelledAddressSchema, type LabelledText, type LearntMap } from '../board/index.ts'
import { markSchema, substanceSchema } from '../spill/index.ts'
import {
  goodReadingsSchema,
  leadsSchema,
  measurementSchema,
  powerVerdictSchema,
  type ShortAnswer,
  shortHuntSchema,
} from '../measure/index.ts'
import { passLogSchema } from '../plan/index.ts'
import {
  practiceActionsSchema,
  practiceGameSchema,
  type PracticeResult,
  type PracticeView,
  type Proposed,
} from '../rehearsal/index.ts'
import { assumptionsSchema, checkAnswerSchema, priceBookSchema } from '../suspects/index.ts'
import type {
  BoardRaster,
  Camera,
  KnownDistance,
  KnownRectangle,
  Like,
  LikesWish,
  Snapped,
  SnapWish,
} from '../trace/index.ts'
import type { Assessment, NextSteps, PhotoSampling, Rework, ReworkQuestion } from '../case/index.ts'
import type { HeatRun, HeatSetting, WhatIf, WhatIfWish } from '../heat/index.ts'
import { keptReadingSchema, type ReadReport, recipeSchema, type RecipeGuess, type Tally } from '../report/index.ts'

/** One call: its name, the schema of what goes in, and of what comes back. */
export interface Call<Input, Output> {
  readonly name: string
  readonly takes: z.ZodType<Input>
  readonly gives: z.ZodType<Output>
}

const fileLike = z.instanceof(Blob)

/** Our own workers' answers: that it is a `Result` is checked, its inside is typed by the core that made it. */
const answer = <T>(): z.ZodType<Result<T>> =>
  z.custom<Result<T>>((value) => typeof value === 'object' && value !== null && 'ok' in value)

const tally = z.custom<Tally>((value) => typeof value === 'object' && value !== null && 'parts' in value)

/** Values that the screen made out of parsed ones: told by a field, typed by the core that takes them and checks them. */
const shaped = <T>(field: string): z.ZodType<T> =>
  z.custom<T>((value) => typeof value === 'object' && value !== null && field in value)

const call = <Input, Output>(name: string, takes: z.ZodType<Input>, gives: z.ZodType<Output>): Call<Input, Output> => ({
  name,
  takes,
  gives,
})

/** What a layout file came to. */
export interface ImportedBoard {
  readonly model: BoardModel
  /** What the layout does not tell, in words. */
  readonly untold: readonly string[]
}

/** A photo that a board is traced from, ready to be shown. */
export interface TracePhoto {
  /** Its working size: what is clicked is told in these pixels. */
  readonly widthPx: number
  readonly heightPx: number
  readonly preview: ImageBitmap
}

/** What straightens a photo: what was shown in it, and what of the board is wanted. */
export interface StraightenWish {
  readonly file: Blob
  readonly known: KnownRectangle | KnownDistance
  /** In mm of the board. */
  readonly box: Box
  /** From the board’s mm to those of the photo, where it shows the other side. */
  readonly under?: Homography | undefined
}

/** A photo straightened onto the board, to show and to look for parts in. */
export interface StraightTrace {
  readonly picture: ImageBitmap
  readonly raster: BoardRaster
  readonly camera: Camera
  readonly missMm: number | undefined
}

/** What a case gives to the reasoning. */
const entered = z.strictObject({
  marks: z.array(markSchema),
  tally: tally.optional(),
  substances: z.array(substanceSchema),
  assumptions: assumptionsSchema.optional(),
  prices: priceBookSchema.optional(),
  currency: z.string().max(12).optional(),
  washed: z.boolean().optional(),
  takenUp: z.boolean().optional(),
  washedAfter: z.int().min(0).optional(),
  measurements: z.array(measurementSchema),
  leads: leadsSchema.optional(),
  goodReadings: z.array(goodReadingsSchema),
  checks: z.array(checkAnswerSchema),
  told: z.enum(['accident', 'no-accident', 'unknown']).optional(),
  passes: passLogSchema.optional(),
  retest: tally.optional(),
  earlier: z.array(z.strictObject({ afterPasses: z.int().min(0), tally })).optional(),
  untested: z.boolean().optional(),
  power: powerVerdictSchema.optional(),
})

const played = z.strictObject({ game: practiceGameSchema, actions: practiceActionsSchema })

/** How reports speak of the kept board, where that has changed since it was opened. */
const words = z.array(keptReadingSchema)

export const calls = {
  /** Loads a board description and keeps it for the calls that follow. */
  openBoard: call(
    'openBoard',
    z.strictObject({ text: z.string().optional(), description: z.unknown().optional() }),
    answer<BoardModel>(),
  ),
  /** Reads a board layout, or data files of one board, packed or not, and keeps the board. */
  importLayout: call(
    'importLayout',
    z.strictObject({
      files: z
        .array(z.strictObject({ file: fileLike, name: z.string() }))
        .min(1)
        .max(200),
    }),
    answer<ImportedBoard>(),
  ),
  /** Labelled addresses out of a text, with the names that a label may have. */
  readAddresses: call(
    'readAddresses',
    z.strictObject({ text: z.string().max(40_000_000), names: z.array(z.string()), label: z.string().optional() }),
    answer<LabelledText>(),
  ),
  /** What labelled addresses tell of a board’s map; the n-th row counts as line n. */
  learnAddresses: call(
    'learnAddresses',
    z.strictObject({ rows: z.array(labelledAddressSchema).min(1).max(20_000) }),
    answer<LearntMap>(),
  ),
  /** How a report seems to be written, or how a given recipe reads it, with its first rows. */
  previewReport: call(
    'previewReport',
    z.strictObject({ file: fileLike, recipe: recipeSchema.optional(), words: words.optional() }),
    answer<RecipeGuess>(),
  ),
  /** Streams a report; progress is the share of its bytes. */
  readReport: call(
    'readReport',
    z.strictObject({
      file: fileLike,
      recipe: recipeSchema.optional(),
      words: words.optional(),
      mayBeClean: z.boolean().optional(),
    }),
    answer<ReadReport>(),
  ),
  /** Reach, stories and lift list of the kept board with these marks and this tally. */
  assess: call('assess', entered, answer<Assessment>()),
  /** What to look at or measure next on the kept board, by what it tells about the lift decision per minute. */
  nextSteps: call('nextSteps', entered, answer<NextSteps>()),
  /** Heat of each target, then the order of passes; progress names the part that is being solved. */
  planRework: call('planRework', z.strictObject({ question: shaped<ReworkQuestion>('lift') }), answer<Rework>()),
  /** One pass over time on the kept board, with the board's temperatures every few seconds. */
  heatFor: call('heatFor', z.strictObject({ setting: shaped<HeatSetting>('nozzle') }), answer<HeatRun>()),
  /** One change to a pass, compared with it; the run that comes along may lack its frames. */
  whatIf: call('whatIf', z.strictObject({ wish: shaped<WhatIfWish>('target') }), answer<readonly WhatIf[]>()),
  /** A photo as it is seen from above, ready to be laid under the drawing. */
  rectifyPhoto: call(
    'rectifyPhoto',
    z.strictObject({ file: fileLike, sampling: shaped<PhotoSampling>('toSource') }),
    answer<ImageBitmap>(),
  ),
  /** A photo that a board is to be traced from: refused where it is none, or too large. */
  openTrace: call('openTrace', z.strictObject({ file: fileLike }), answer<TracePhoto>()),
  /** The photo straightened by what was shown in it; progress tells its pieces. */
  straightenTrace: call('straightenTrace', shaped<StraightenWish>('known'), answer<StraightTrace>()),
  /** Where a body of known size stands around a click. */
  snapTrace: call(
    'snapTrace',
    z.strictObject({ raster: shaped<BoardRaster>('planes'), wish: shaped<SnapWish>('click') }),
    answer<Snapped>(),
  ),
  /** Parts that look like the first one, the most alike first. */
  likesTrace: call(
    'likesTrace',
    z.strictObject({ raster: shaped<BoardRaster>('planes'), wish: shaped<LikesWish>('first') }),
    answer<readonly Like[]>(),
  ),
  /** Where the kept board's rail sinks an injected current, and where to read next. */
  huntShort: call('huntShort', z.strictObject({ hunt: shortHuntSchema }), answer<ShortAnswer>()),
  /** What is seen of a practice card of the kept board after some actions. */
  playPractice: call('playPractice', played, answer<PracticeView>()),
  /** What Liftmap would do there. */
  askPractice: call('askPractice', played, answer<Proposed>()),
  /** The end of a practice card that was handed back; progress says what is being reckoned. */
  endPractice: call('endPractice', played, answer<PracticeResult>()),
} as const

export type AssessInput = z.infer<typeof calls.assess.takes>
