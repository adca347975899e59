/** A game of practice as it is kept: board, seed, difficulty and what was done. Everything else follows from these. */
import { z } from 'zod'
import { say } from '../../base/index.ts'
import { difficultyCalled } from './difficulties.ts'

const name = z.string().min(1).max(200)

export const MOST_SEED = 999_999
/** More than anybody does on one card; the last is left for the hand-back. */
export const MOST_ACTIONS = 300

export const practiceGameSchema = z.strictObject({
  /** Name of the board's description. */
  board: name,
  seed: z.number().int().min(0).max(MOST_SEED),
  difficulty: z.string().refine((id) => difficultyCalled(id) !== undefined, say('a difficulty that there is')),
})
export type PracticeGame = z.infer<typeof practiceGameSchema>

const handBackWays = ['repaired', 'not-worth-it'] as const
export type HandBackWay = (typeof handBackWays)[number]

const practiceActionSchema = z.discriminatedUnion('kind', [
  /** A check of the catalogue at a place, as next checks name them. */
  z.strictObject({ kind: z.literal('check'), check: name, at: name }),
  /** Off, looked under, put right, refitted. */
  z.strictObject({ kind: z.literal('lift'), ref: name }),
  /** What is no part: `rail VMEM`, a track by its lane, `slip s1`. */
  z.strictObject({ kind: z.literal('put-right'), name }),
  z.strictObject({ kind: z.literal('run') }),
  /** What would Liftmap do? Costs nothing, and is told at the end. */
  z.strictObject({ kind: z.literal('ask') }),
  z.strictObject({ kind: z.literal('hand-back'), as: z.enum(handBackWays) }),
])
export type PracticeAction = z.infer<typeof practiceActionSchema>

export const practiceActionsSchema = z.array(practiceActionSchema).max(MOST_ACTIONS)

export const keptPracticeSchema = z.strictObject({
  format: z.literal('liftmap-practice'),
  version: z.literal(1),
  game: practiceGameSchema,
  actions: practiceActionsSchema,
})
export type KeptPractice = z.infer<typeof keptPracticeSchema>

/** A game as it is written to a file or store, format version 1. Actions are copied in their order. */
export const keptPractice = (game: PracticeGame, actions: readonly PracticeAction[]): KeptPractice => ({
  format: 'liftmap-practice',
  version: 1,
  game,
  actions: [...actions],
})
