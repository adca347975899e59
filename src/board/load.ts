/** From a board file to a checked board model, or every fault of it at once. */
import { bad, type Fault, faultsFromZod, good, parseJson, type Result, say } from '../base/index.ts'
import { checkAddressMap } from './check-address-map.ts'
import { checkCarried } from './check-carried.ts'
import { checkDetail } from './check-detail.ts'
import { checkMemory } from './check-memory.ts'
import { checkParts } from './check-parts.ts'
import { checkRails } from './check-rails.ts'
import { checkReportWords } from './check-report-words.ts'
import { checkShape } from './check-shape.ts'
import { deriveModel } from './derive.ts'
import { type BoardDraft, draftOfBoard, draftOfPieces } from './draft.ts'
import { knownParts } from './known-parts.ts'
import type { BoardModel } from './model.ts'
import { packageOutlines } from './packages.ts'
import { type BoardDescription, boardSchema } from './schema.ts'
import { oversizeFault } from './size.ts'

/**
 * A board model from a plain value, such as parsed JSON.
 * @returns the model with everything derived, or all faults: those of form, and those between pieces as far as the
 * pieces could be read. Never a half-loaded board.
 */
export function loadBoard(input: unknown): Result<BoardModel> {
  const oversize = oversizeFault(input)
  if (oversize !== undefined) return bad(oversize)
  const parsed = boardSchema.safeParse(input)
  const faults = parsed.success
    ? crossFaults(draftOfBoard(parsed.data))
    : [...faultsFromZod(parsed.error, input), ...crossFaults(draftOfPieces(input))]
  return parsed.success && faults.length === 0 ? good(deriveModel(parsed.data)) : { ok: false, faults }
}

/** Every fault of a description, as `loadBoard` would tell them, without deriving the board: quick enough for the hand. */
export function boardFaults(board: BoardDescription): readonly Fault[] {
  const parsed = boardSchema.safeParse(board)
  return [...(parsed.success ? [] : faultsFromZod(parsed.error, board)), ...crossFaults(draftOfBoard(board))]
}

/** A board model from the text of a board file. */
export function readBoard(text: string): Result<BoardModel> {
  const parsed = parseJson(text, say('board file'))
  return parsed.ok ? loadBoard(parsed.value) : parsed
}

function crossFaults(draft: BoardDraft): Fault[] {
  const tooDetailed = checkDetail(draft)
  if (tooDetailed !== undefined) return [tooDetailed]
  const known = knownParts(draft, packageOutlines)
  return [
    ...checkShape(draft),
    ...checkParts(draft, packageOutlines),
    ...checkMemory(draft, known),
    ...checkCarried(draft, known),
    ...checkRails(draft, known),
    ...checkAddressMap(draft),
    ...checkReportWords(draft),
  ]
}
