/** A closed card as the shop's record counts it: what it was made of, what was done, what was found. No names of people. */
import type { BoardModel } from '../../board/index.ts'
import type { CheckAnswer } from '../../suspects/index.ts'
import type { Foretold, OtherTruth, PartTruth } from './schema.ts'

export type WorkedKind = 'memory' | 'core' | 'other'

export interface WorkedPart {
  readonly ref: string
  readonly kind: WorkedKind
  readonly was: PartTruth
  readonly harmed: boolean
  readonly minutes: number | undefined
  /** How often it was lifted, tries that failed too. */
  readonly lifts: number
  /** How it went back, by the last refit that was done. */
  readonly refitted: 'the same' | 'a new one' | undefined
  /** What was seen under it once it was off. */
  readonly under: 'reached' | 'clean' | undefined
  /** What inspection said of its edges before; undefined where nobody looked. */
  readonly look: 'residue' | 'clean' | undefined
  readonly lanes: readonly string[]
  /** Lanes behind each of its command fields. */
  readonly commandLanes: readonly (readonly string[])[]
  readonly failing: readonly string[]
}

export interface MeasuredLine {
  readonly name: string
  readonly bad: boolean
}

export interface ClosedCard {
  readonly board: string
  /** As `2026-03`; undefined where no day was noted. */
  readonly month: string | undefined
  readonly repaired: boolean
  /** What the owner said weeks later: whether the mended fault stayed away; undefined where nobody knows. */
  readonly held: boolean | undefined
  /** Liquid metal was spilled on it. */
  readonly metal: boolean
  /** Everything that was wrong with it is known. */
  readonly known: boolean
  readonly places: Places
  readonly parts: readonly WorkedPart[]
  readonly others: readonly { readonly what: OtherTruth; readonly at: string | undefined }[]
  /** Somebody had marked a spill on the sheet. */
  readonly spillReported: boolean
  /** The owner had said that nothing happened. */
  readonly noAccidentTold: boolean
  readonly slipMarks: number
  /** Measured cold as it came. */
  readonly rails: readonly MeasuredLine[]
  readonly stages: readonly MeasuredLine[]
  /** Stages of each rail, and what it feeds. */
  readonly railParts: ReadonlyMap<string, { readonly stages: readonly string[]; readonly feeds: readonly string[] }>
  /** Branches of rails as the suspects room calls them, `branch B of rail VMEM`. */
  readonly branches: ReadonlyMap<string, { readonly rail: string; readonly feeds: readonly string[] }>
  readonly checks: readonly CheckAnswer[]
  readonly foretold: Foretold | undefined
}

/** How many places of each kind a board has at which the cause can sit. */
export type Places = Readonly<Record<string, number>>

/** As the suspects room counts its causes: a package's command field is one place, however finely a board divides it. */
export function placesOf(model: BoardModel): Places {
  const regions = model.regions.filter(({ lanes, part }) => lanes.length > 0 && isMemory(model, part))
  const command = regions.filter(({ role }) => role === 'command')
  const stages = new Set(model.rails.flatMap((rail) => rail.stages).filter((ref) => model.partByRef.has(ref)))
  const core = model.core === undefined ? 0 : 1
  return {
    die: model.memories.length,
    joints: regions.length - command.length,
    'command-joints': new Set(command.map(({ part }) => part)).size,
    corridor: model.corridors.length,
    rail: model.rails.length,
    'rail-branch': model.rails.reduce((sum, { branches }) => sum + branches.length, 0),
    'power-stage': stages.size,
    core,
    'core-patch': core,
  }
}

/** Every branch of a rail by its name among the causes. */
export const branchesOf = (model: BoardModel): ClosedCard['branches'] =>
  new Map(
    model.rails.flatMap(({ name: rail, branches }) =>
      branches.map(({ name, feeds }) => [`branch ${name} of rail ${rail}`, { rail, feeds }] as const),
    ),
  )

const isMemory = (model: BoardModel, ref: string): boolean => model.partByRef.get(ref)?.kind === 'memory'
