/** Supplies of an input rail that are read apart from it: before each fuse, and what the user names, such as the slot. */
import type { BoardModel, PlacedPart, Rail } from '../board/index.ts'
import type { RailUse } from './practice.ts'
import type { Supply } from './schema.ts'

export interface PlacedSupply extends Supply {
  /** The fuse before which it is read, where the board has it. */
  readonly fuse: PlacedPart | undefined
}

/** @param own as the user named them; one with the name of a fuse's takes its place */
export function suppliesOf(
  model: BoardModel,
  rail: Rail,
  useOf: (rail: Rail) => RailUse,
  own: readonly Supply[],
): PlacedSupply[] {
  const named = own.filter((each) => each.rail === rail.name).map((each) => ({ ...each, fuse: undefined }))
  const names = new Set(own.map(({ name }) => name))
  const inputs = model.rails.filter((each) => useOf(each) === 'input')
  const fuses = inputs.includes(rail) ? model.parts.filter((part) => isFuse(part) && isOf(part, rail, inputs)) : []
  const before = fuses.map((fuse) => ({
    name: `before ${fuse.ref}`,
    rail: rail.name,
    joined: true,
    fuse,
  }))
  return [...before.filter(({ name }) => !names.has(name)), ...named]
}

/** `F` is the letter of fuses (IEC 60617 and IEEE 315, from memory); `FB` is a ferrite, `FD` a fiducial. */
const isFuse = ({ ref }: PlacedPart): boolean => /^F\d/.test(ref)

/**
 * By its nets where the board has them, one between two inputs being none, as both are read as rails; else it is of the
 * only input that there is.
 */
function isOf({ pads }: PlacedPart, rail: Rail, inputs: readonly Rail[]): boolean {
  const nets = new Set(pads.flatMap(({ net }) => net ?? []))
  const joins = inputs.filter(({ name }) => nets.has(name))
  return nets.size > 0 ? joins.length === 1 && joins[0] === rail : inputs.length === 1
}
