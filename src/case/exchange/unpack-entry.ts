/** Unpacks one entry of a zip file to exactly the bytes that were promised, and never to more. */
import { Inflate } from 'fflate'
import { bad, good, type Result, say } from '../../base/index.ts'
import { crc32 } from './crc32.ts'
import type { ZipEntry } from './zip-directory.ts'

/** So little at a time that no piece can unpack to much before it is counted. */
const STEP_BYTES = 16_384

const COPY_AGAIN = say('Copy or download the whole file again.')

/**
 * The bytes of one entry. Refuses more or fewer bytes than its directory promised, a broken stream, and a checksum
 * that does not fit.
 */
export function unpackEntry(entry: ZipEntry): Result<Uint8Array> {
  const { name, bytes } = entry
  const unpacked = entry.deflated ? inflate(entry) : entry.packed.slice()
  if (typeof unpacked === 'string')
    return bad({ path: name, found: unpacked, expected: say('{bytes} bytes', { bytes }), todo: COPY_AGAIN })
  if (crc32(unpacked) !== entry.crc) {
    return bad({
      path: name,
      found: say('bytes that do not fit their checksum'),
      expected: say('undamaged bytes'),
      todo: COPY_AGAIN,
    })
  }
  return good(unpacked)
}

/** @returns the bytes, or in words what is wrong with them */
function inflate({ packed, bytes }: ZipEntry): Uint8Array | string {
  const out = new Uint8Array(bytes)
  const so = { far: 0, ended: false }
  const inflater = new Inflate((chunk, final) => {
    if (so.far + chunk.length <= bytes) out.set(chunk, so.far)
    so.far += chunk.length
    so.ended ||= final
  })
  try {
    for (let at = 0; at < packed.length && so.far <= bytes; at += STEP_BYTES) {
      inflater.push(packed.subarray(at, at + STEP_BYTES), at + STEP_BYTES >= packed.length)
    }
  } catch {
    return say('packed bytes that are damaged')
  }
  if (so.far > bytes) return say('more bytes than it says')
  return so.ended && so.far === bytes ? out : say('{far} bytes', { far: so.far })
}
