/** Pictures from a connected camera, as a photo of the case or as the code of a slip; loaded when first opened. */
import { later } from '../controls/later.tsx'

export const PhotoCamera = later(async () => (await import('./PhotoCamera.tsx')).PhotoCamera)
export const CodeScanner = later(async () => (await import('./CodeScanner.tsx')).CodeScanner)
