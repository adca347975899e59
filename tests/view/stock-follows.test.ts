/** The stock follows the bill: a used part that is undone or taken off it lies in its place again, and redone it is gone. */
import { afterEach, expect, test } from 'vitest'
import { CASE_VERSION, caseSchema, startHistory, stockItemSchema, takenFor } from '../../src/case/index.ts'
import { editCase, redoEdit, undoEdit } from '../../src/view/actions/edit.ts'
import { spendPieces, takePieces, watchForStock } from '../../src/view/actions/stock.ts'
import { caseShelfInMemory } from '../../src/view/shelf/memoryShelf.ts'
import { createCaseStore } from '../../src/view/stores/caseStore.ts'
import { createScreenStore } from '../../src/view/stores/screenStore.ts'

const line = stockItemSchema.parse({ id: 'm', kind: 'memory', what: '8 Gbit', count: 3, price: 15 })
const present = caseSchema.parse({
  format: 'liftmap-case',
  version: CASE_VERSION,
  title: 'x',
  card: '0417',
  board: { path: 'b.json' },
})

const ends: (() => void)[] = []
afterEach(() => {
  for (const end of ends.splice(0)) end()
})

async function deskThatUsed(count: number) {
  const caseShelf = caseShelfInMemory()
  const cases = createCaseStore()
  cases.setState({ id: 'here', history: startHistory(present) })
  const desk = { caseShelf, cases, screen: createScreenStore() }
  ends.push(watchForStock(desk))
  await caseShelf.stock.add([line])
  await takePieces(desk, [line], count)
  await spendPieces(desk, [line])
  /** Pieces that are there, and how many of them lie ready for the case. */
  const inStock = async (): Promise<readonly number[]> => {
    const kept = await caseShelf.stock.list()
    const [item] = kept.ok ? kept.value.items : []
    return item === undefined ? [] : [item.count, takenFor(item, 'here')]
  }
  const billed = () => cases.getState().history?.present.handBack.usedParts ?? []
  return { desk, inStock, billed }
}

test('two of three are used and billed; undone they lie ready again, redone they are gone', async () => {
  const { desk, inStock, billed } = await deskThatUsed(2)
  await expect.poll(inStock).toEqual([1, 0])
  expect(billed()).toMatchObject([{ count: 2, price: 15, stock: { line: 'm', count: 2 } }])
  undoEdit(desk)
  expect(billed()).toEqual([])
  await expect.poll(inStock).toEqual([3, 2])
  redoEdit(desk)
  await expect.poll(inStock).toEqual([1, 0])
})

test('taken off the bill by hand they come back; undo of that uses them again; a price changes nothing', async () => {
  const { desk, inStock, billed } = await deskThatUsed(1)
  const billTo = (usedParts: ReturnType<typeof billed>): void =>
    editCase(desk, (c) => ({ ...c, handBack: { ...c.handBack, usedParts } }))
  billTo(billed().map((part) => ({ ...part, price: 20 })))
  await expect.poll(inStock).toEqual([2, 0])
  billTo([])
  await expect.poll(inStock).toEqual([3, 1])
  undoEdit(desk)
  await expect.poll(inStock).toEqual([2, 0])
})

test('where the line is gone meanwhile, it is said', async () => {
  const { desk } = await deskThatUsed(1)
  await desk.caseShelf.stock.change('m', () => ({ ok: true, value: undefined }))
  undoEdit(desk)
  await expect.poll(() => desk.screen.getState().message?.title).toBe('The stock could not follow')
})
