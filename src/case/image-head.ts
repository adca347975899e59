/** What a picture file is and how large, from its first bytes: told before anything decodes it. */
import type { Photo } from './schema.ts'

export interface ImageHead extends Pick<Photo, 'type'> {
  /** As stored; a camera's note may turn it by a quarter. */
  readonly widthPx: number
  readonly heightPx: number
}

/**
 * JPEG (ITU-T T.81, annex B: the frame header's segment), PNG (W3C PNG, section 11.2.1: IHDR) and WebP (RFC 9649, section
 * 2: VP8, VP8L, VP8X); undefined for anything else, and where the size is not within these bytes.
 */
export function imageHead(bytes: Uint8Array): ImageHead | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const type = pictureType(bytes)
  const size = type === undefined ? undefined : SIZES[type](view)
  if (type === undefined || size === undefined || size.widthPx < 1 || size.heightPx < 1) return undefined
  return { type, ...size }
}

/** The type of a file that begins like a picture that can be taken in; undefined for any other. */
export function pictureType(bytes: Uint8Array): Photo['type'] | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  if (isPng(view)) return 'image/png'
  if (isJpeg(view)) return 'image/jpeg'
  return isWebp(view) ? 'image/webp' : undefined
}

/** PNG, JPEG or WebP by the first bytes, whatever the file is called. */
export const looksLikePicture = (bytes: Uint8Array): boolean => pictureType(bytes) !== undefined

type Size = Pick<ImageHead, 'widthPx' | 'heightPx'>

const isPng = (view: DataView): boolean =>
  view.byteLength >= 8 && view.getUint32(0) === 0x89504e47 && view.getUint32(4) === 0x0d0a1a0a
const isJpeg = (view: DataView): boolean =>
  view.byteLength >= 3 && view.getUint16(0) === 0xffd8 && view.getUint8(2) === 0xff
const isWebp = (view: DataView): boolean =>
  view.byteLength >= 12 && view.getUint32(0) === 0x52494646 && view.getUint32(8) === 0x57454250

const pngSize = (view: DataView): Size | undefined =>
  view.byteLength < 24 ? undefined : { widthPx: view.getUint32(16), heightPx: view.getUint32(20) }

/** Start-of-frame markers but for DHT, JPG and DAC, which share their range. */
const isFrame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc

function jpegSize(view: DataView): Size | undefined {
  let at = 2
  while (at + 9 < view.byteLength) {
    if (view.getUint8(at) !== 0xff) return undefined
    const marker = view.getUint8(at + 1)
    if (marker === 0xff) at += 1
    else if (isFrame(marker)) return { heightPx: view.getUint16(at + 5), widthPx: view.getUint16(at + 7) }
    else at += 2 + view.getUint16(at + 2)
  }
  return undefined
}

const VP8 = 0x56503820
const VP8L = 0x5650384c
const VP8X = 0x56503858

function webpSize(view: DataView): Size | undefined {
  if (view.byteLength < 30) return undefined
  switch (view.getUint32(12)) {
    case VP8:
      return { widthPx: view.getUint16(26, true) & 0x3fff, heightPx: view.getUint16(28, true) & 0x3fff }
    case VP8L: {
      const bits = view.getUint32(21, true)
      return { widthPx: (bits & 0x3fff) + 1, heightPx: ((bits >>> 14) & 0x3fff) + 1 }
    }
    case VP8X:
      return { widthPx: wholeOf3(view, 24) + 1, heightPx: wholeOf3(view, 27) + 1 }
    default:
      return undefined
  }
}

const wholeOf3 = (view: DataView, at: number): number =>
  view.getUint8(at) | (view.getUint8(at + 1) << 8) | (view.getUint8(at + 2) << 16)

const SIZES: Readonly<Record<Photo['type'], (view: DataView) => Size | undefined>> = {
  'image/png': pngSize,
  'image/jpeg': jpegSize,
  'image/webp': webpSize,
}
