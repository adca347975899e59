/**
 * The list of a zip file's entries, told apart before a byte is unpacked. Form: PKWARE's application note APPNOTE.TXT 6.3.10
 * (also ISO/IEC 21320-1), sections 4.3.7, 4.3.12 and 4.3.16. Refuses: files of several volumes, encrypted or 64-bit ones,
 * other methods than stored and deflate, entries that overlap, bytes that belong to none.
 */
import { bad, type Fault, good, type Result, say } from '../../base/index.ts'

export interface ZipEntry {
  readonly name: string
  /** As it lies in the file. */
  readonly packed: Uint8Array
  readonly deflated: boolean
  /** As the file says; checked when it is unpacked. */
  readonly bytes: number
  readonly crc: number
}

const END = 0x06054b50
const END_BYTES = 22
const END_64 = 0x07064b50
const CENTRAL = 0x02014b50
const CENTRAL_BYTES = 46
const LOCAL = 0x04034b50
const LOCAL_BYTES = 30
const MAX_COMMENT = 0xffff
/** Deflate makes at most 1032 bytes of one: 258 of two bits (RFC 1951; zlib's technical details). */
const MAX_DEFLATE_RATIO = 1032

const fault = (path: string, found: string, expected: string, todo?: string): Fault => ({
  path,
  found,
  expected,
  ...(todo === undefined ? {} : { todo }),
})

const COPY_AGAIN = say('Copy or download the whole file again.')

/** @param maxEntries more are refused unread @returns the entries in their order, or every fault */
export function readZipDirectory(bytes: Uint8Array, maxEntries: number): Result<readonly ZipEntry[]> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const end = endOfDirectory(view)
  if (end === undefined) {
    const begun = view.byteLength >= 4 && view.getUint32(0, true) === LOCAL
    const found = begun ? say('a zip file whose end is missing') : say('bytes that are no zip file')
    return bad(fault(say('the file'), found, say('a packed case, whole'), COPY_AGAIN))
  }
  const count = view.getUint16(end + 10, true)
  const size = view.getUint32(end + 12, true)
  const start = view.getUint32(end + 16, true)
  const form = faultOfForm(view, end, { count, size, start }, maxEntries)
  return form === undefined ? readEntries(bytes, view, { count, start, end }) : bad(form)
}

/** Where the end record stands: the last place at which its comment reaches exactly to the end of the file. */
function endOfDirectory(view: DataView): number | undefined {
  const last = view.byteLength - END_BYTES
  for (let at = last; at >= Math.max(0, last - MAX_COMMENT); at--) {
    if (view.getUint32(at, true) !== END) continue
    if (at + END_BYTES + view.getUint16(at + 20, true) === view.byteLength) return at
  }
  return undefined
}

function faultOfForm(
  view: DataView,
  end: number,
  { count, size, start }: { readonly count: number; readonly size: number; readonly start: number },
  maxEntries: number,
): Fault | undefined {
  const is64 = count === 0xffff || size === 0xffffffff || start === 0xffffffff
  if (is64 || (end >= 20 && view.getUint32(end - 20, true) === END_64)) {
    return fault(
      say('the file'),
      say('a zip file of the 64-bit kind'),
      say('a plain one'),
      say('Export the case anew from Liftmap.'),
    )
  }
  if (
    view.getUint16(end + 4, true) !== 0 ||
    view.getUint16(end + 6, true) !== 0 ||
    view.getUint16(end + 8, true) !== count
  ) {
    return fault(say('the file'), say('one of several volumes'), say('a zip file in one piece'))
  }
  if (count > maxEntries)
    return fault(say('the file'), say('{count} entries', { count }), say('at most {most}', { most: maxEntries }))
  if (start + size !== end) {
    return fault(
      say('the file'),
      say('a list of entries that is not where it says'),
      say('a whole zip file'),
      COPY_AGAIN,
    )
  }
  return undefined
}

interface Place {
  readonly from: number
  readonly to: number
  readonly name: string
}

function readEntries(
  bytes: Uint8Array,
  view: DataView,
  { count, start, end }: { readonly count: number; readonly start: number; readonly end: number },
): Result<readonly ZipEntry[]> {
  const entries: ZipEntry[] = []
  const places: Place[] = []
  const faults: Fault[] = []
  let at = start
  for (let i = 0; i < count; i++) {
    if (at + CENTRAL_BYTES > end || view.getUint32(at, true) !== CENTRAL) {
      return bad(
        ...faults,
        fault(say('entry {i}', { i: i + 1 }), say('no entry'), say('{count} entries', { count }), COPY_AGAIN),
      )
    }
    const next = at + CENTRAL_BYTES + [28, 30, 32].reduce((sum, field) => sum + view.getUint16(at + field, true), 0)
    if (next > end)
      return bad(
        ...faults,
        fault(say('entry {i}', { i: i + 1 }), say('a name beyond the list'), say('a name'), COPY_AGAIN),
      )
    const read = readEntry(bytes, view, at, start)
    if (read.ok) {
      entries.push(read.value.entry)
      places.push(read.value.place)
    } else faults.push(...read.faults)
    at = next
  }
  if (at !== end)
    faults.push(fault(say('the file'), say('bytes after the list of entries'), say('nothing there'), COPY_AGAIN))
  faults.push(...overlaps(places), ...repeated(entries))
  return faults.length > 0 ? bad(...faults) : good(entries)
}

/** @param at of its record in the list @param limit where the list begins: no entry's bytes reach beyond */
function readEntry(
  bytes: Uint8Array,
  view: DataView,
  at: number,
  limit: number,
): Result<{ readonly entry: ZipEntry; readonly place: Place }> {
  const name = nameAt(bytes, at + CENTRAL_BYTES, view.getUint16(at + 28, true))
  if (name === undefined) return bad(fault(say('an entry'), say('a name that is not UTF-8'), say('a plain name')))
  const flags = view.getUint16(at + 8, true)
  const method = view.getUint16(at + 10, true)
  const packedBytes = view.getUint32(at + 20, true)
  const size = view.getUint32(at + 24, true)
  const from = view.getUint32(at + 42, true)
  if (flags & 0x2041) {
    return bad(
      fault(
        name,
        say('an encrypted entry'),
        say('an open one'),
        say('Unpack it with its password, then pack it anew without.'),
      ),
    )
  }
  if (method !== 0 && method !== 8)
    return bad(fault(name, say('packing method {method}', { method }), say('stored or deflate')))
  if (from + LOCAL_BYTES > limit || view.getUint32(from, true) !== LOCAL) {
    return bad(fault(name, say('no bytes where the list says'), say('the entry'), COPY_AGAIN))
  }
  const nameBytes = view.getUint16(from + 26, true)
  const begin = from + LOCAL_BYTES + nameBytes + view.getUint16(from + 28, true)
  const to = begin + packedBytes
  if (to > limit)
    return bad(fault(name, say('an entry that is cut off'), say('{packedBytes} bytes', { packedBytes }), COPY_AGAIN))
  if (nameAt(bytes, from + LOCAL_BYTES, nameBytes) !== name || view.getUint16(from + 8, true) !== method) {
    return bad(fault(name, say('another entry than the list says'), say('the same in both places')))
  }
  const most = method === 0 ? packedBytes : packedBytes * MAX_DEFLATE_RATIO
  if (size > most || (method === 0 && size !== packedBytes)) {
    return bad(
      fault(
        name,
        say('{packedBytes} bytes that are said to hold {size}', { packedBytes, size }),
        say('at most {most}', { most }),
      ),
    )
  }
  const entry = {
    name,
    packed: bytes.subarray(begin, to),
    deflated: method === 8,
    bytes: size,
    crc: view.getUint32(at + 16, true),
  }
  return good({ entry, place: { from, to, name } })
}

function nameAt(bytes: Uint8Array, from: number, length: number): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes.subarray(from, from + length))
  } catch {
    return undefined
  }
}

/** Entries that share bytes are how a small file unpacks to an immense one. */
function overlaps(places: readonly Place[]): Fault[] {
  const inOrder = places.toSorted((a, b) => a.from - b.from)
  return inOrder.flatMap((place, i) => {
    const before = inOrder[i - 1]
    return before === undefined || before.to <= place.from
      ? []
      : [fault(place.name, say('bytes that it shares with {name}', { name: before.name }), say('bytes of its own'))]
  })
}

function repeated(entries: readonly ZipEntry[]): Fault[] {
  const seen = new Set<string>()
  return entries.flatMap(({ name }) => {
    if (seen.has(name)) return [fault(name, say('a second entry of that name'), say('each name once'))]
    seen.add(name)
    return []
  })
}
