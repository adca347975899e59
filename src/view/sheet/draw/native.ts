/** The browser's own drawing context behind Konva's wrapper: bulk geometry is drawn without the wrapper's cost. */
import type { Context } from 'konva/lib/Context.js'

// oxlint-disable-next-line no-underscore-dangle -- Konva has no other way to it
export const nativeContext = (konva: Context): CanvasRenderingContext2D => konva._context
