/** The cameras of this machine: told apart, opened, closed again; what goes wrong as a sentence that says what to do. */
import { say } from '../../base/index.ts'

export interface CameraName {
  readonly id: string
  readonly words: string
}

/** In px; a camera gives what it has that is nearest. */
export interface WantedSize {
  readonly widthPx: number
  readonly heightPx: number
}

/** @param preferred id of the camera; where it is gone, the browser gives another one */
export async function openCamera(preferred: string | undefined, size: WantedSize): Promise<MediaStream> {
  // a page that comes neither from this machine nor over https has no cameras at all
  if (!isSecureContext) throw new DOMException('not a secure page', 'SecurityError')
  return await navigator.mediaDevices.getUserMedia({
    audio: false,
    video: {
      width: { ideal: size.widthPx },
      height: { ideal: size.heightPx },
      // a telephone or tablet looks at the bench, not at who holds it
      ...(preferred === undefined ? { facingMode: 'environment' } : { deviceId: { ideal: preferred } }),
    },
  })
}

export function closeCamera(stream: MediaStream): void {
  for (const track of stream.getTracks()) track.stop()
}

export const idOf = (stream: MediaStream): string | undefined => stream.getVideoTracks()[0]?.getSettings().deviceId

/** With their names, which the browser tells only once one of them was allowed. */
export async function camerasHere(): Promise<CameraName[]> {
  const found = await navigator.mediaDevices.enumerateDevices()
  return found
    .filter(({ kind }) => kind === 'videoinput')
    .map(({ deviceId, label }, i) => ({ id: deviceId, words: label === '' ? say('Camera {i}', { i: i + 1 }) : label }))
}

export const UNPLUGGED = say('The camera is gone. Plug it in again, then press Try again.')

/** The names are those of the W3C's Media Capture and Streams, section 10.4, `getUserMedia`. */
export function troubleOf(reason: unknown): string {
  const name = reason instanceof DOMException ? reason.name : ''
  switch (name) {
    case 'NotFoundError':
    case 'OverconstrainedError':
      return say('No camera is connected. Plug one in, then press Try again.')
    case 'NotAllowedError':
      return say('The browser may not use the camera. Allow it beside the address, then press Try again.')
    case 'NotReadableError':
    case 'AbortError':
      return say('Another program holds the camera. Close that program, then press Try again.')
    case 'SecurityError':
      return say('The browser gives cameras only to pages of this machine or over https. Open Liftmap there.')
    default:
      return say('The camera did not start. Unplug it, plug it in, then press Try again.')
  }
}
