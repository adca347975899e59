/** The checksum of zip files: CRC-32 with the reflected polynomial 0xEDB88320 (ISO 3309, ITU-T V.42; RFC 1952 section 8). */

const table = Uint32Array.from({ length: 256 }, (_, byte) => {
  let crc = byte
  for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1
  return crc
})

/** @returns an unsigned 32-bit number */
export function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff
  for (let i = 0; i < bytes.length; i++) crc = (crc >>> 8) ^ (table[(crc ^ (bytes[i] ?? 0)) & 0xff] ?? 0)
  return (crc ^ 0xffffffff) >>> 0
}
