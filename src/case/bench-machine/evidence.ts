/** What the host says of the card, as an answer to a check that the suspects weigh. */
import type { BoardModel } from '../../board/index.ts'
import type { CheckAnswer } from '../../suspects/index.ts'
import type { Case } from '../schema.ts'

const HOST_CHECK = 'host-detects'

/**
 * Whether the host detects the card, as it came. Where a memory test told of the card it was detected then, and the test
 * says more: nothing is added. Nor is it on a board without a core.
 */
export function hostAnswer(
  model: BoardModel,
  detected: Case['powered']['enumerates'],
  ranTest: boolean,
): readonly CheckAnswer[] {
  const at = model.core?.ref
  if (detected === 'unknown' || ranTest || at === undefined) return []
  return [{ check: HOST_CHECK, at, found: detected === 'no', run: 0 }]
}
