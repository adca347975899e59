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

/** @param at where on the page it was dropped: messages about it are shown there */
export async function takeFile(desk: Desk, file: File, at: Point): Promise<void> {
  try {
    await takeKind(desk, file, at, await tellKind(file))
  } catch (reason) {
    sayFaults(desk, at, `${file.name} could not be read`, [faultOf(file.name, reason)])
  }
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
