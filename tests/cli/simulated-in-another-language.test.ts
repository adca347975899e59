/** In another language the simulator makes up the same card: its luck does not hang on how anything is said. */
import { expect, test, vi } from 'vitest'
import { everythingMarked } from '../support/everything-marked.ts'

/** What a bench sees and learns of some cards, with all rooms loaded after the language was chosen. */
async function cardsIn(language: string, catalogue: Readonly<Record<string, string>>): Promise<string> {
  vi.resetModules()
  const { speak } = await import('../../src/base/index.ts')
  speak(language, catalogue)
  const { simulateCard } = await import('../../src/rehearsal/index.ts')
  const { shippedBoard } = await import('../support/read-board.ts')
  const board = shippedBoard('hitch-12')
  const rail = board.rails[0]?.name ?? ''
  return JSON.stringify(
    Array.from({ length: 40 }, (_, index) => {
      const card = simulateCard(board, 700 + index)
      const { truth, observations } = card
      return {
        truth,
        observations,
        read: card.measure({ kind: 'rail', name: rail }),
        pressed: card.outcomeOf('press', 'U14'),
        again: [...card.retest(['U14'])],
      }
    }),
  )
}

test('40 cards are the same with every sentence said otherwise', async () => {
  const english = await cardsIn('en', {})
  const marked = await cardsIn('de', everythingMarked())
  expect(marked).toContain('⟦')
  expect(marked.replaceAll(/[⟦⟧]/g, '') === english).toBe(true)
})
