/** A file has been dropped or chosen: what it is decides what becomes of it. */
import { type Point, say } from '../../base/index.ts'
import { boardData, type FileKind, fileKindOf, fileKinds, HEAD_BYTES, holdsCase } from '../../case/index.ts'
import type { Desk } from '../stores/desk.ts'
import { openCaseZip } from './exchange.ts'
import { faultOf, sayFaults, saySettled } from './messages.ts'
import { importLayout, openBoardText, openCaseText } from './open.ts'
import { takeInCounts } from './ownRecord.ts'
import { takePhoto } from './photos.ts'
import { addReport } from './reports.ts'
import { takeWords } from './reportWords.ts'

/**
 * @param at where on the page it was dropped: messages about it are shown there
 * @param only what is taken here; left out, all kinds
 */
export async function takeFile(desk: Desk, dropped: File, at: Point, only?: readonly FileKind[]): Promise<void> {
  const { name } = dropped
  try {
    const { kind, file } = await openDropped(dropped)
    if (only !== undefined && !only.includes(kind) && !UNTAKEN.has(kind)) return sayOther(desk, name, at, kind)
    const { mostBytes } = fileKinds[kind]
    if (file.size > mostBytes) {
      const expected = say('at most {value} MB', { value: Math.round(mostBytes / 1e6) })
      const fault = { path: name, found: `${Math.round(file.size / 1e6)} MB`, expected }
      return sayFaults(desk, at, say('{name} was not opened', { name }), [fault])
    }
    await TAKERS[kind](desk, file, at)
  } catch (reason) {
    sayFaults(desk, at, say('{name} could not be read', { name }), [faultOf(name, reason)])
  }
}

/**
 * Several files dropped at once: data of a board go together, as its edge may be in one file and its parts in another; all
 * others one by one.
 * @param only what is taken here; left out, all kinds
 */
export async function takeFiles(
  desk: Desk,
  dropped: readonly File[],
  at: Point,
  only?: readonly FileKind[],
): Promise<void> {
  if (dropped.length < 2) {
    for (const file of dropped) await takeFile(desk, file, at, only)
    return
  }
  const kinds = await Promise.all(dropped.map(kindOfDropped))
  const isData = (i: number): boolean => boardData.some((kind) => kind === kinds[i])
  const data = dropped.filter((_, i) => isData(i))
  if (data.length > 1) await importLayout(desk, data, at)
  for (const [i, file] of dropped.entries()) if (data.length < 2 || !isData(i)) await takeFile(desk, file, at, only)
}

/** A file that can't be read is no data; what is wrong with it is said when it is taken. */
async function kindOfDropped(file: File): Promise<FileKind> {
  try {
    return fileKindOf(new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer()))
  } catch {
    return 'binary'
  }
}

/** Shorter files are held from the drop on; a longer one stays a file, and whoever needs it streams it. */
const HELD_BYTES = 64 * 1024 * 1024

/** Opens a dropped file once: what it is, and its bytes where they can be held. */
async function openDropped(dropped: File): Promise<{ readonly kind: FileKind; readonly file: File }> {
  const { name, type, lastModified, size } = dropped
  const isHeld = size <= HELD_BYTES
  const bytes = await (isHeld ? dropped : dropped.slice(0, HEAD_BYTES)).arrayBuffer()
  const kind = fileKindOf(new Uint8Array(bytes, 0, Math.min(bytes.byteLength, HEAD_BYTES)))
  return { kind, file: isHeld ? new File([bytes], name, { type, lastModified }) : dropped }
}

type Taker = (desk: Desk, file: File, at: Point) => void | Promise<void>

const refuse =
  (kind: FileKind): Taker =>
  (desk, file, at) => {
    const expected = say(
      'a report as text, a board, case or counts as JSON, a packed case, a .kicad_pcb layout or other data of a board, or a JPEG, PNG or WebP photo',
    )
    const todo = say('If it is packed, unpack it; save another kind of picture as JPEG; then drop that.')
    const fault = { path: file.name, found: fileKinds[kind].words, expected, todo }
    sayFaults(desk, at, say('{name} was not taken', { name: file.name }), [fault])
  }

/** What becomes of each kind on the desk. */
const TAKERS: Readonly<Record<FileKind, Taker>> = {
  layout: takeData,
  ipc2581: takeData,
  drill: takeData,
  gerber: takeData,
  netlist: takeData,
  placements: takeData,
  board: async (desk, file, at) => openBoardText(desk, await file.text(), file.name, at),
  case: async (desk, file, at) => openCaseText(desk, await file.text(), file.name, at),
  zip: takeZip,
  counts: takeDroppedCounts,
  words: takeWords,
  report: (desk, file, at) => addReport(desk, file.name, file, at),
  picture: takePhoto,
  binary: refuse('binary'),
  empty: refuse('empty'),
}

async function takeData(desk: Desk, file: File, at: Point): Promise<void> {
  await importLayout(desk, [file], at)
}

/** A packed case, else packed files of a board. */
async function takeZip(desk: Desk, file: File, at: Point): Promise<void> {
  const isCase = holdsCase(new Uint8Array(await file.arrayBuffer()))
  await (isCase ? openCaseZip(desk, file, at) : importLayout(desk, [file], at))
}

/** Taken nowhere: that is said in the same words everywhere. */
const UNTAKEN: ReadonlySet<FileKind> = new Set(['binary', 'empty'])

function sayOther(desk: Desk, name: string, at: Point, kind: FileKind): void {
  const fault = {
    path: name,
    found: fileKinds[kind].words,
    expected: say('a board, a layout or a case'),
    todo: say('Begin or open a case first, then drop this on its sheet.'),
  }
  sayFaults(desk, at, say('{name} can’t start a case', { name }), [fault])
}

/** Counts of another shop go into the shop's own record, and are told where they were dropped. */
async function takeDroppedCounts(desk: Desk, file: File, at: Point): Promise<void> {
  const taken = await takeInCounts(desk, file)
  if (!taken.ok) return sayFaults(desk, at, say('{name} was not taken in', { name: file.name }), taken.faults)
  const { name, cards, doubt } = taken.value
  const lines = [...(doubt === undefined ? [] : [doubt]), say('They stand in the shop’s own record, under Open.')]
  saySettled(desk, at, say('“{name}” was added: {cards, plural, one {# card} other {# cards}}', { name, cards }), lines)
}
