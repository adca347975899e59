/** What a picture is, from its first bytes: as the formats' own documents lay them out. */
import { describe, expect, test } from 'vitest'
import { fileKindOf, imageHead, looksLikePicture } from '../../src/case/index.ts'

const bytes = (hex: string): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(hex.replaceAll(/\s/g, '').match(/../g) ?? [], (pair) => Number.parseInt(pair, 16))
const text = (word: string): string =>
  Array.from(new TextEncoder().encode(word), (code) => code.toString(16).padStart(2, '0')).join('')

/** W3C PNG (third edition), sections 5.2 and 11.2.1: signature, then IHDR with width and height, big-endian. */
const png = bytes(`89504e470d0a1a0a 0000000d ${text('IHDR')} 00000fa0 00000bb8 08 06 00 00 00 00000000`)

/** ITU-T T.81, figures B.3 and B.5: SOI, two marker segments to step over, SOF2 with precision, lines, samples a line. */
const jpeg = bytes('ffd8 ffe1 0008 457869660000 ffdb 0005 001122 ffc2 0011 08 0bb8 0fa0 03 012200 021101 031101')

/** The same, the tables' marker DHT (C4) before the frame, and fill bytes before a marker (B.1.1.2). */
const jpegWithTables = bytes('ffd8 ffc4 0006 00112233 ffffff c0 0011 08 01e0 0280 03 012200 021101 031101')

/** RFC 9649, section 2.5: VP8 frame header, start code 9d012a, then 14 bits each, little-endian. */
const webpLossy = bytes(
  `${text('RIFF')} 24000000 ${text('WEBP')} ${text('VP8 ')} 18000000 300100 9d012a a00f b80b 0000 00000000`,
)
/** RFC 9649, section 3.4: signature 2f, then width - 1 and height - 1 of 14 bits each. */
const webpLossless = bytes(
  `${text('RIFF')} 24000000 ${text('WEBP')} ${text('VP8L')} 18000000 2f ${littleEndian((4000 - 1) | ((3000 - 1) << 14))} 0000000000000000`,
)
/** RFC 9649, section 2.7: canvas width - 1 and height - 1 of 24 bits each. */
const webpExtended = bytes(
  `${text('RIFF')} 24000000 ${text('WEBP')} ${text('VP8X')} 0a000000 08 000000 9f0f00 b70b00 00000000`,
)

function littleEndian(value: number): string {
  return [0, 8, 16, 24].map((shift) => ((value >>> shift) & 255).toString(16).padStart(2, '0')).join('')
}

describe('the head of a picture tells its kind and size', () => {
  test.each([
    ['PNG', png, 'image/png', 4000, 3000],
    ['progressive JPEG', jpeg, 'image/jpeg', 4000, 3000],
    ['JPEG with tables and fill bytes', jpegWithTables, 'image/jpeg', 640, 480],
    ['lossy WebP', webpLossy, 'image/webp', 4000, 3000],
    ['lossless WebP', webpLossless, 'image/webp', 4000, 3000],
    ['extended WebP', webpExtended, 'image/webp', 4000, 3000],
  ] as const)('%s', async (_, head, type, widthPx, heightPx) => {
    expect(imageHead(head)).toEqual({ type, widthPx, heightPx })
    expect(looksLikePicture(head)).toBe(true)
    expect(fileKindOf(head)).toBe('picture')
  })

  test('a head that breaks off, at whatever byte, gives no size and throws nothing', () => {
    for (const whole of [png, jpeg, jpegWithTables, webpLossy, webpLossless, webpExtended]) {
      for (let length = 0; length < 20; length++) {
        expect(() => imageHead(whole.slice(0, length))).not.toThrow()
        expect(imageHead(whole.slice(0, length))).toBeUndefined()
      }
    }
  })

  test('a JPEG whose segments lead nowhere, and a file of another kind, are none', () => {
    expect(imageHead(bytes('ffd8 ff00 0000 0000 0000 0000 0000'))).toBeUndefined()
    expect(imageHead(bytes('ffd8ffe0 0000 0000 0000 0000 0000 0000'))).toBeUndefined()
    expect(looksLikePicture(bytes(text('GIF89a') + '00'.repeat(20)))).toBe(false)
    expect(looksLikePicture(bytes(text('address,expected')))).toBe(false)
  })
})
