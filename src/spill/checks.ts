/** What the engine refuses: marks with wrong numbers, points off the board, substances without their figures. */
import { bad, type Fault, faultsFromZod, type Result, say } from '../base/index.ts'
import { type Behaviour, behaviourOf } from './flow/film.ts'
import type { Side } from '../board/index.ts'
import { type DamMark, damMarkSchema, type SpillMark, spillMarkSchema } from './marks.ts'
import { hangsDown } from './mounting.ts'
import { type Substance, substanceSchema } from './substance/substance.ts'

/**
 * How the substance of a mark behaves, or every fault of mark, dams and substance.
 * @param coreSide the side of the board that the core stands on
 */
export function checkSpill(
  mark: SpillMark,
  dams: readonly DamMark[],
  substance: Substance,
  coreSide: Side,
): Result<Behaviour> {
  const faults = [
    ...faultsOf(spillMarkSchema.safeParse(mark), mark, say('spill {id}', { id: mark.id })),
    ...dams.flatMap((dam) => faultsOf(damMarkSchema.safeParse(dam), dam, say('dam {id}', { id: dam.id }))),
    ...faultsOf(substanceSchema.safeParse(substance), substance, say('substance {id}', { id: substance.id })),
  ]
  if (mark.substance !== substance.id) {
    faults.push({
      path: `spill ${mark.id}`,
      found: say('substance "{id}"', { id: mark.substance }),
      expected: say('the substance that was handed in, "{id}"', { id: substance.id }),
      todo: say('Choose a known substance in the spill station.'),
    })
  }
  return faults.length > 0 ? bad(...faults) : behaviourOf(substance, hangsDown(mark, coreSide))
}

type Parsed = ReturnType<
  typeof spillMarkSchema.safeParse | typeof damMarkSchema.safeParse | typeof substanceSchema.safeParse
>

function faultsOf(parsed: Parsed, input: unknown, where: string): Fault[] {
  if (parsed.success) return []
  return faultsFromZod(parsed.error, input).map((fault) => ({ ...fault, path: fault.path.replace('$', where) }))
}
