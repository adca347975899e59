/** A file has been dropped or chosen: what it is decides what becomes of it. */
import { type Point, counted } from '../../base/index.ts'
import type { Desk } from '../stores/desk.ts'
import { openCaseZip } from './exchange.ts'
import { faultOf, sayFaults, saySettled } from './messages.ts'
import { importLayout, openBoardText, openCaseText } from './open.ts'
import { takeInCounts } from './ownRecord.ts'
import { takePhoto } from './photos.ts'
import { addReport } from './reports.ts'
import { takeWords } from './reportWords.ts'
import { type FileKind, tellKind } from './tellKind.ts'

const MAX_JSON_BYTES = 256 * 1024 * 1024
/** A packed case holds photos as well. */
const MAX_ZIP_BYTES = 1_100_000_000

/**
 * @param at where on the page it was dropped: messages about it are shown there
 * @param only what is taken here; left out, all kinds
 */
export async function takeFile(desk: Desk, file: File, at: Point, only?: readonly FileKind[]): Promise<void> {
  try {
    const kind = await tellKind(file)
    if (only !== undefined && TOLD[kind] !== undefined && !only.includes(kind)) return sayOther(desk, file, at, kind)
    await takeKind(desk, file, at, kind)
  } catch (reason) {
    sayFaults(desk, at, `${file.name} could not be read`, [faultOf(file.name, reason)])
  }
}

/** What a file is told to be, where it can be told. */
const TOLD: Readonly<Partial<Record<FileKind, string>>> = {
  report: 'text, such as a report',
  picture: 'a photo',
  counts: 'counts of a shop',
  words: 'words of reports',
}

function sayOther(desk: Desk, file: File, at: Point, kind: FileKind): void {
  const fault = {
    path: file.name,
    found: TOLD[kind] ?? kind,
    expected: 'a board, a layout or a case',
    todo: 'Begin or open a case first, then drop this on its sheet.',
  }
  sayFaults(desk, at, `${file.name} begins no case`, [fault])
}

async function takeKind(desk: Desk, file: File, at: Point, kind: FileKind): Promise<void> {
  if (kind === 'empty' || kind === 'binary') {
    const found = kind === 'empty' ? 'no text at all' : 'bytes that are not text'
    const expected =
      'a report as text, a board, case or counts as JSON, a packed case, a .kicad_pcb layout, or a JPEG, PNG or WebP photo'
    const todo = 'If it is packed, unpack it; save another kind of picture as JPEG; then drop that.'
    return sayFaults(desk, at, `${file.name} was not taken`, [{ path: file.name, found, expected, todo }])
  }
  if (kind === 'picture') return takePhoto(desk, file, at)
  if (kind === 'report') return addReport(desk, file.name, file, at)
  if (kind === 'layout') return importLayout(desk, file, at)
  if (kind === 'counts') return takeDroppedCounts(desk, file, at)
  if (kind === 'words') return takeWords(desk, file, at)
  const mostBytes = kind === 'zip' ? MAX_ZIP_BYTES : MAX_JSON_BYTES
  if (file.size > mostBytes) {
    const expected = `at most ${Math.round(mostBytes / 1e6)} MB`
    const fault = { path: file.name, found: `${Math.round(file.size / 1e6)} MB`, expected }
    return sayFaults(desk, at, `${file.name} was not opened`, [fault])
  }
  if (kind === 'zip') return openCaseZip(desk, file, at)
  const text = await file.text()
  return kind === 'case' ? openCaseText(desk, text, file.name, at) : openBoardText(desk, text, file.name, at)
}

/** Counts of another shop go into the shop's own record, and are told where they were dropped. */
async function takeDroppedCounts(desk: Desk, file: File, at: Point): Promise<void> {
  const taken = await takeInCounts(desk, file)
  if (!taken.ok) return sayFaults(desk, at, `${file.name} was not taken in`, taken.faults)
  const { name, cards, doubt } = taken.value
  const lines = [...(doubt === undefined ? [] : [doubt]), 'They stand in the shop’s own record, under Open.']
  saySettled(desk, at, `“${name}” came in with ${counted(cards, 'card')}`, lines)
}
