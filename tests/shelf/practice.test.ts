/** Both kinds of shelf keep the practice card that is played, apart from all cases, and forget it when told. */
import { openDB } from 'idb'
import { describe, expect, test } from 'vitest'
import { keptPractice } from '../../src/rehearsal/index.ts'
import { openDatabaseShelf } from '../../src/view/shelf/databaseShelf.ts'
import { freshName, kinds, value } from './support.ts'

const kept = keptPractice({ board: 'bowline-8.json', seed: 6, difficulty: 'plain' }, [
  { kind: 'check', check: 'under-look', at: 'U17' },
  { kind: 'run' },
])

describe.each(kinds)('a shelf %s', (_, open) => {
  test('keeps seed and actions, in no list of cases and no record of the shop', async () => {
    const shelf = open()
    expect(value(await shelf.practice())).toBeUndefined()
    value(await shelf.setPractice(kept))
    expect(value(await shelf.practice())).toEqual(kept)
    expect(value(await shelf.list())).toEqual([])
    expect(value(await shelf.closedCards()).cards).toEqual([])
    expect(value(await shelf.lastOpen())).toBeUndefined()
    value(await shelf.setPractice(undefined))
    expect(value(await shelf.practice())).toBeUndefined()
  })
})

test('what cannot be read any more is no game', async () => {
  const name = freshName()
  const shelf = openDatabaseShelf({ name })
  value(await shelf.setPractice(kept))
  const database = await openDB(name)
  await database.put('notes', JSON.stringify({ ...kept, actions: [{ kind: 'peek' }] }), 'practice')
  expect(value(await shelf.practice())).toBeUndefined()
  database.close()
  shelf.close()
})
