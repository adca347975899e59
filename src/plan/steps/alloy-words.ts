/** The joint alloy of a part in words, and that it is taken for granted where the board file does not say. */
import { say } from '../../base/index.ts'
import type { PlacedPart } from '../../board/index.ts'

/** The alloy's name as the board file has it; without one SAC305, said to be taken for granted. */
export const alloyWords = (part: PlacedPart): string =>
  part.description.jointAlloy ?? say('SAC305 (taken for granted; the board file gives none)')
