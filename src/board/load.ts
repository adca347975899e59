/** From a board file to a checked board model, or every fault of it at once. */
import { bad, type Fault, faultsFromZod, good, parseJson, type Result } from '../base/index.ts'
import { checkAddressMap } from './check-address-map.ts'
import { checkMemory } from './check-memory.ts'
import { checkParts } from './check-parts.ts'
import { checkRails } from './check-rails.ts'
import { checkShape } from './check-shape.ts'
import { deriveModel } from './derive.ts'
import { type BoardDraft, draftOfBoard, draftOfPieces } from './draft.ts'
import type { BoardModel } from './model.ts'
import { packageOutlines } from './packages.ts'
import { boardSchema } from './schema.ts'

/**
 * A board model from a plain value, such as parsed JSON.
 * @returns the model with everything derived, or all faults: those of form, and those between pieces as far as the
 * pieces could be read. Never a half-loaded board.
 */
export function loadBoard(input: unknown): Result<BoardModel> {
  const parsed = boardSchema.safeParse(input)
  if (!parsed.success) return bad(...faultsFromZod(parsed.error, input), ...crossFaults(draftOfPieces(input)))
  const faults = crossFaults(draftOfBoard(parsed.data))
  return faults.length > 0 ? bad(...faults) : good(deriveModel(parsed.data))
}

/** A board model from the text of a board file. */
export function readBoard(text: string): Result<BoardModel> {
  const parsed = parseJson(text, 'board file')
  return parsed.ok ? loadBoard(parsed.value) : parsed
}

function crossFaults(draft: BoardDraft): Fault[] {
  return [
    ...checkShape(draft),
    ...checkParts(draft, packageOutlines),
    ...checkMemory(draft, packageOutlines),
    ...checkRails(draft, packageOutlines),
    ...checkAddressMap(draft),
  ]
}
