/** `--place "C3 low=CH6"`: what the user says of some names of a report; a pattern fills the others. */
import { bad, good, type Result, say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { fillNames, type ForeignNames, guessRecipe, nameConflicts, plainNames } from '../../report/index.ts'

export interface PlacedNames {
  readonly names: ForeignNames | undefined
  /** The beginning of the report, decoded. */
  readonly beginning: string
  /** The report from its start. */
  readonly source: AsyncIterable<Uint8Array>
}

const BEGINNING_BYTES = 256 * 1024

/**
 * Names by what they mean, those that fit the same pattern filled in, and the report from its start again. Refuses a
 * placement without `=`, and one that the board does not have or that contradicts another.
 */
export async function placedNames(
  report: AsyncIterable<Uint8Array>,
  placements: readonly string[],
  model: BoardModel,
): Promise<Result<PlacedNames>> {
  const { beginning, source } = await peekBeginning(report)
  if (placements.length === 0) return good({ names: undefined, beginning, source })
  const placed: Record<string, string | string[]> = {}
  for (const placement of placements) {
    const at = placement.lastIndexOf('=')
    const ids = placement
      .slice(at + 1)
      .split('+')
      .map((id) => id.trim())
    const [only] = ids
    if (at < 1 || only === undefined || only === '')
      return bad({
        path: '--place',
        found: placement,
        expected: say('a name, =, and a part, channel or lane: "C3 low=CH6"'),
      })
    placed[placement.slice(0, at).trim()] = ids.length === 1 ? only : ids
  }
  const conflicts = nameConflicts(placed, model)
  if (conflicts.length > 0)
    return bad(
      ...conflicts.map(({ sentence }) => ({
        path: '--place',
        found: sentence,
        expected: say('one place of {name} for each name', { name: model.name }),
      })),
    )
  const own = guessRecipe(beginning, model).foreign.map(({ name }) => name)
  const spelled = plainNames(placed, own)
  return good({ names: fillNames(own, model, spelled)?.names ?? spelled, beginning, source })
}

async function peekBeginning(
  report: AsyncIterable<Uint8Array>,
): Promise<{ beginning: string; source: AsyncIterable<Uint8Array> }> {
  const iterator = report[Symbol.asyncIterator]()
  const ahead: Uint8Array[] = []
  let bytes = 0
  while (bytes < BEGINNING_BYTES) {
    const step = await iterator.next()
    if (step.done === true) break
    ahead.push(step.value)
    bytes += step.value.length
  }
  const decoder = new TextDecoder()
  const beginning = ahead.map((chunk) => decoder.decode(chunk, { stream: true })).join('')
  async function* again(): AsyncIterable<Uint8Array> {
    yield* ahead
    for (;;) {
      const step = await iterator.next()
      if (step.done === true) return
      yield step.value
    }
  }
  return { beginning, source: again() }
}
