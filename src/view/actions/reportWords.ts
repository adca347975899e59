/** Telling what the names of a report mean and how reports that look so are read: steps of the case, kept for the next card. */
import { type Point, say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import type { Case } from '../../case/index.ts'
import { type ForeignNames, type KeptReading, readWordsFile, type Recipe, writeWordsFile } from '../../report/index.ts'
import {
  type Told,
  wordsOf,
  wordsUnder,
  wordsWithNames,
  wordsWithout,
  wordsWithRecipe,
  withWords,
} from '../stores/boardWords.ts'
import type { Desk } from '../stores/desk.ts'
import { headOf } from '../stores/readingStore.ts'
import { today } from './clock.ts'
import { editCase } from './edit.ts'
import { sayFaults, saySettled } from './messages.ts'
import { saveFile } from './saveFile.ts'

const MOST_TITLE_CHARACTERS = 80

/** `run-1.txt of 2026-11-27`: what a later report is said to be read like. */
function toldBy(desk: Desk, id: string): Told | undefined {
  const { byId } = desk.readings.getState()
  const sample = byId.get(id)?.sample
  const name = headOf(id, desk.cases.getState().history?.present.reports ?? [], byId)?.name
  if (sample === undefined || name === undefined) return undefined
  return { title: say('{name} of {today}', { name: name.slice(0, MOST_TITLE_CHARACTERS), today: today() }), sample }
}

/**
 * @param id of the report
 * @param names all that are known for reports that look like this one
 */
export function tellNames(desk: Desk, id: string, names: ForeignNames): void {
  const told = toldBy(desk, id)
  if (told !== undefined) editWords(desk, (words) => wordsWithNames(words, told, names))
}

/** How a report was read on the user's word; part of the report in every step that has it, so no step of its own. */
export function keepHow(desk: Desk, id: string, recipe: Recipe): void {
  const told = toldBy(desk, id)
  const { board } = desk.cases.getState()
  if (told === undefined || board === undefined) return
  // Steps share their board, which is large: what they shared before they share after.
  const changed = new Map<Case['board'], Case['board']>()
  const withIt = (state: Case): Case => {
    const next =
      changed.get(state.board) ??
      withWords(state, board.model, wordsWithRecipe(wordsOf(state, board.model), told, recipe)).board
    changed.set(state.board, next)
    return next === state.board ? state : { ...state, board: next }
  }
  desk.cases.setState(({ history: h }) =>
    h === undefined
      ? {}
      : { history: { ...h, present: withIt(h.present), past: h.past.map(withIt), future: h.future.map(withIt) } },
  )
}

export const forgetWords = (desk: Desk, gone: KeptReading): void =>
  editWords(desk, (words) => wordsWithout(words, gone))

function editWords(desk: Desk, change: (words: readonly KeptReading[]) => KeptReading[]): void {
  const { board } = desk.cases.getState()
  if (board !== undefined) editCase(desk, (c) => withWords(c, board.model, change(wordsOf(c, board.model))))
}

/** The small file that carries them to another Liftmap without the board. */
export function exportWords(desk: Desk): void {
  const { board, history } = desk.cases.getState()
  if (board === undefined || history === undefined) return
  const text = writeWordsFile(wordsOf(history.present, board.model), board.model.name)
  const name = board.model.name.toLowerCase().replace(/[^a-z0-9]+/g, '-')
  saveFile(`${name}.report-words.json`, new Blob([text], { type: 'application/json' }))
}

/** Such a file, dropped: what it says is put under what is known here. */
export async function takeWords(desk: Desk, file: File, at: Point): Promise<void> {
  const { board, history } = desk.cases.getState()
  if (board === undefined || history === undefined) {
    const fault = {
      path: file.name,
      found: say('words of reports'),
      expected: say('a board first'),
      todo: say('Open a board or a case.'),
    }
    return sayFaults(desk, at, say('{name} was not taken in', { name: file.name }), [fault])
  }
  const read = readWordsFile(await file.text(), board.model, file.name)
  if (!read.ok) return sayFaults(desk, at, say('{name} was not taken in', { name: file.name }), read.faults)
  editWords(desk, (words) => wordsUnder(words, read.value.readings, board.model))
  const kinds = say('{length, plural, one {# kind of report} other {# kinds of report}}', {
    length: read.value.readings.length,
  })
  saySettled(desk, at, say('{name} came in', { name: file.name }), [
    say('It tells how {kinds} speak of {name}. Undo takes it back.', { kinds, name: board.model.name }),
  ])
}

/** What this browser keeps about the board goes into a case that is opened; a demo stays as it was made. */
export const withShopWords = (desk: Desk, caseFile: Case, model: BoardModel): Case =>
  caseFile.demo
    ? caseFile
    : withWords(caseFile, model, wordsUnder(wordsOf(caseFile, model), desk.shopWords.of(model.name), model))
