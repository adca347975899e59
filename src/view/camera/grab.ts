/** One picture out of the live one. */

/** Draws what the camera shows now, at its own size or smaller. @returns false while there is nothing to see yet */
export function drawFrame(video: HTMLVideoElement, canvas: HTMLCanvasElement, longestPx = Infinity): boolean {
  const { videoWidth, videoHeight } = video
  if (videoWidth === 0 || videoHeight === 0) return false
  const scale = Math.min(1, longestPx / Math.max(videoWidth, videoHeight))
  canvas.width = Math.round(videoWidth * scale)
  canvas.height = Math.round(videoHeight * scale)
  const context = canvas.getContext('2d', { willReadFrequently: Number.isFinite(longestPx) })
  context?.drawImage(video, 0, 0, canvas.width, canvas.height)
  return context !== null
}

const JPEG_QUALITY = 0.92

export const jpegOf = (canvas: HTMLCanvasElement, name: string): Promise<File | undefined> =>
  new Promise((resolve) =>
    canvas.toBlob(
      (bytes) => resolve(bytes === null ? undefined : new File([bytes], name, { type: 'image/jpeg' })),
      'image/jpeg',
      JPEG_QUALITY,
    ),
  )
