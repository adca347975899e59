/** What is taken down at the intake desk beside the owner's account: the card, its owner's contact, what was agreed. */
import { z } from 'zod'
import { say } from '../base/index.ts'
import { isCode } from './code.ts'

const day = z.iso.date()

export const sealStates = ['intact', 'broken', 'none', 'unknown'] as const

/** What an owner agrees to, each by itself. */
export const consentKinds = ['diagnosis', 'heat', 'data'] as const
export type ConsentKind = (typeof consentKinds)[number]

export const intakeSchema = z.strictObject({
  code: z.string().refine(isCode, say('a code of eight characters with its check character')).optional(),
  model: z.string().max(200).default(''),
  serial: z.string().max(120).default(''),
  seals: z.enum(sealStates).default('unknown'),
  sealsNote: z.string().max(400).default(''),
  cameWith: z.string().max(1000).default('').describe('accessories that came with the card'),
  earlierRepairs: z.string().max(2000).default(''),
  phone: z.string().max(80).default(''),
  mail: z.string().max(200).default(''),
  diagnosisFee: z.number().nonnegative().max(1e6).optional().describe('as agreed, in the currency of the hand-back'),
  due: day.optional(),
  consents: z
    .strictObject({ diagnosis: day.optional(), heat: day.optional(), data: day.optional() })
    .prefault({})
    .describe('the day on which the owner agreed to each; left out where not'),
})
export type Intake = z.infer<typeof intakeSchema>

const nothingTaken: Intake = intakeSchema.parse({})

/** What was taken down of a case; empty fields where nothing was. */
export const intakeOf = ({ intake }: { readonly intake?: Intake | undefined }): Intake => intake ?? nothingTaken

/** What each consent covers, as it stands on the slip. */
export const consentWords: Readonly<Record<ConsentKind, string>> = {
  diagnosis: say('Diagnosis: open, look and measure'),
  heat: say('Heat: lift and refit parts'),
  data: say('Data: keep name and contact'),
}

export const sealWords: Readonly<Record<Intake['seals'], string>> = {
  intact: say('intact'),
  broken: say('broken'),
  none: say('no seals'),
  unknown: say('not noted'),
}
