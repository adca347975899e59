/** A case and the versions of its board: none changes it silently, one can be tried, and sheet and workers follow a move. */
import { afterEach, expect, test } from 'vitest'
import { applyEdit, type BoardDescription, boardSchema, loadBoard } from '../../src/board/index.ts'
import { startHistory } from '../../src/case/index.ts'
import { moveToVersion, tryVersion, watchForBoard, withGlueOf } from '../../src/view/actions/boardVersion.ts'
import { redoEdit, undoEdit } from '../../src/view/actions/edit.ts'
import { createCameraStore } from '../../src/view/sheet/cameraStore.ts'
import { contentOf } from '../../src/view/shelf/boardShelf.ts'
import { caseShelfInMemory } from '../../src/view/shelf/memoryShelf.ts'
import { closeDesk, createDesk, type Desk } from '../../src/view/stores/desk.ts'
import type { WorkerLike } from '../../src/workers/client.ts'
import { calls } from '../../src/workers/contract.ts'
import { createHandlers } from '../../src/workers/handlers.ts'
import { serve } from '../../src/workers/serve.ts'
import { sees } from '../support/waiting.ts'
import { board, caseOf, value } from './support.ts'

const first = boardSchema.parse(board)
const moved = value(applyEdit(first, { kind: 'move', refs: ['U13'], byMm: { x: 3, y: 0 } }))
const without = value(
  applyEdit(value(applyEdit(first, { kind: 'remove', refs: ['U13'] })), { kind: 'forget-address-map' }),
)

const ends: (() => void)[] = []
afterEach(() => {
  for (const end of ends.splice(0)) end()
})

/** Boards that the reasoner was told to open, in their order, by where U13 stands. */
interface Opened {
  readonly desk: Desk
  readonly places: readonly (number | undefined)[]
}

function openDesk(): Opened {
  const places: (number | undefined)[] = []
  let started = 0
  const startWorker = (): WorkerLike => {
    const { port1, port2 } = new MessageChannel()
    const isFirst = started++ === 0
    port2.addEventListener(
      'message',
      ({ data }: MessageEvent<{ name?: string; input?: { description?: BoardDescription } }>) => {
        const description = data.input?.description
        if (isFirst && data.name === 'openBoard' && description !== undefined) places.push(placeIn(description))
      },
    )
    serve(port2, createHandlers())
    port1.start()
    port2.start()
    ends.push(() => port1.close())
    return port1
  }
  const shelf = { cases: [], boards: [], open: () => Promise.resolve(undefined) }
  const desk = createDesk({ startWorker, shelf, caseShelf: caseShelfInMemory() })
  const model = value(loadBoard(first))
  const camera = createCameraStore(model.box, model.box)
  const present = caseOf({
    reports: [
      { name: 'run.csv', text: 'lane,errors\nU13.A0,900\nU13.A1,700\nU13.B0,800\nU13.B1,900\nU12.A0,0\nU12.A1,0\n' },
    ],
    measurements: [
      {
        line: { kind: 'rail', name: 'VMEM' },
        quantity: 'ohms',
        phase: 'before',
        reading: { kind: 'value', value: 60 },
        typed: '60',
      },
    ],
    floorLife: [{ ref: 'U13', state: 'within' }],
  })
  desk.cases.setState({ id: 'a', history: startHistory(present), board: { opening: 1, model, camera, untold: [] } })
  ends.push(watchForBoard(desk), () => closeDesk(desk))
  return { desk, places }
}

const placeIn = (description: BoardDescription): number | undefined =>
  description.parts.find(({ ref }) => ref === 'U13')?.at.x
const insideOf = (desk: Desk): BoardDescription | undefined => {
  const inside = desk.cases.getState().history?.present.board
  return inside !== undefined && 'inline' in inside ? inside.inline : undefined
}
const shownOf = (desk: Desk): BoardDescription | undefined => desk.cases.getState().board?.model.description
const follows = (desk: Desk, description: BoardDescription): Promise<void> =>
  sees(() => {
    const shown = shownOf(desk)
    expect(shown === undefined ? undefined : contentOf(shown)).toBe(contentOf(description))
  })

/** Whatever was asked of the reasoner before has been answered; it is asked for the first board here. */
const answered = (desk: Desk) => desk.reasoner.call(calls.openBoard, { description: first })

test('a new version of its board changes an open case in nothing', async () => {
  const { desk, places } = openDesk()
  const before = desk.cases.getState()
  const version = (description: BoardDescription) => ({ at: 1, who: '', changed: [], description })
  value(await desk.caseShelf.boards.keep({ basedOn: 0, versions: [version(first), version(moved)] }))
  await answered(desk)
  expect(desk.cases.getState()).toBe(before)
  expect(places).toEqual([placeIn(first)])
})

test('trying a version says what it changes and leaves the case as it is', async () => {
  const { desk } = openDesk()
  const before = desk.cases.getState()
  const trial = value(await tryVersion(desk, without))
  expect(trial.before).toContain('U13')
  expect(trial.after).not.toContain('U13')
  expect(trial.lost).toEqual(['U13'])
  expect(desk.cases.getState()).toBe(before)
})

test('glue that was set in a case stays where the card has it, and what the version says of other parts counts', async () => {
  const { desk } = openDesk()
  const [part, other] = first.parts.filter(({ kind }) => kind === 'memory')
  if (part === undefined || other === undefined) return expect.fail('two memories')
  const glued = {
    ...first,
    parts: first.parts.map((each) => (each === part ? { ...each, bonding: 'edge' as const } : each)),
  }
  moveToVersion(desk, { before: [], after: [], lost: [], board: glued }, 'glue was set')
  await follows(desk, glued)
  const trial = value(await tryVersion(desk, moved))
  const bondings = new Map(trial.board.parts.map(({ ref, bonding }) => [ref, bonding]))
  expect([bondings.get(part.ref), bondings.get(other.ref)]).toEqual(['edge', other.bonding])
  expect(contentOf(withGlueOf(moved, glued))).toBe(contentOf(trial.board))
})

test('a case that is moved stands on the version, with sheet and workers; undo and redo lead back and forth', async () => {
  const { desk, places } = openDesk()
  moveToVersion(desk, { before: [], after: [], lost: [], board: moved }, 'moved')
  await follows(desk, moved)
  undoEdit(desk)
  await follows(desk, first)
  redoEdit(desk)
  await follows(desk, moved)
  expect(insideOf(desk)).toEqual(moved)
  expect(places).toEqual([placeIn(moved), placeIn(first), placeIn(moved)])
  const [notice] = desk.screen.getState().notices
  expect(notice?.words).toBe('moved')
  await notice?.undo?.()
  await follows(desk, first)
})

test('undone before the version was open, the case ends where it was, and the workers with it', async () => {
  const { desk, places } = openDesk()
  moveToVersion(desk, { before: [], after: [], lost: [], board: moved }, 'moved')
  undoEdit(desk)
  await sees(() => expect(places).toEqual([placeIn(moved), placeIn(first)]))
  await follows(desk, first)
})

test('words of reports that are learnt meanwhile are no other board', async () => {
  const { desk, places } = openDesk()
  const model = desk.cases.getState().board?.model
  const spoken = { ...first, reportWords: [{ title: 'run', look: ['#'], names: { north: 'U13' } }] }
  moveToVersion(desk, { before: [], after: [], lost: [], board: spoken }, 'words')
  await answered(desk)
  expect(desk.cases.getState().board?.model).toBe(model)
  expect(places).toEqual([placeIn(first)])
})
