/** What a board holds for machines hangs on no language: sources that are told from habits, ids of regions, the schema. */
import { expect, test, vi } from 'vitest'
import { everythingMarked } from '../support/everything-marked.ts'

/** With all rooms loaded after the language was chosen. */
async function roomsIn(language: string, catalogue: Readonly<Record<string, string>>) {
  vi.resetModules()
  const { speak } = await import('../../src/base/index.ts')
  speak(language, catalogue)
  const board = await import('../../src/board/index.ts')
  const { shippedBoard } = await import('../support/read-board.ts')
  const made = board.boardFromPattern(board.usualPattern())
  if (!made.ok) throw new Error(JSON.stringify(made.faults))
  const shipped = shippedBoard('hitch-12')
  return {
    sources: made.value.rails.map(({ ohmsToGround }) => ohmsToGround?.from),
    regions: [...made.value.regions, ...shipped.regions].map(({ id }) => id),
    schema: board.boardJsonSchema(),
    note: made.value.description.note,
  }
}

test('of a pattern’s board and a shipped one, with every sentence said otherwise', async () => {
  const english = await roomsIn('en', {})
  const marked = await roomsIn('de', everythingMarked())
  expect(marked.note).toContain('⟦')
  expect({ ...marked, note: '' }).toEqual({ ...english, note: '' })
  expect(english.sources).toContain('common practice, no source')
})
