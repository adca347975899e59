/** The word under the core's ref stands on its die, or not at all: languages differ in how long it is. */
import { afterEach, expect, test } from 'vitest'
import { speak } from '../../src/base/index.ts'
import { drawSheet } from '../../src/case/index.ts'
import { assessorFor } from '../support/kept-answers.ts'
import { nothingEntered } from '../support/nothing-entered.ts'
import { shippedBoard } from '../support/read-board.ts'

afterEach(() => speak('en', {}))

const model = shippedBoard('hitch-12')
const assessment = assessorFor(model).assess(nothingEntered)
const drawn = (): string =>
  drawSheet({ model, side: 'top', show: [], marks: [], tally: undefined, assessment, title: 'a sheet' })

test('a word that is no wider than the die is written, a wider one is left out', () => {
  expect(drawn()).toContain('>core<')
  speak('de', { core: 'Kern' })
  expect(drawn()).toContain('>Kern<')
  speak('de', { core: 'Grafikverarbeitungseinheitskern' })
  expect(drawn()).not.toContain('Grafikverarbeitung')
})
