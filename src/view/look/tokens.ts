/** The look as data: the drawing's colours, type, spacing. The canvas and the stylesheet read the same object. */

export { type Theme, type ThemeName, themes } from '../../case/index.ts'

export const type = {
  family: '"Atkinson Hyperlegible Next Variable", "Atkinson Hyperlegible Next", "Open Sans", system-ui, sans-serif',
  /** Sizes in px; nothing on a panel is smaller than `small`. */
  small: 12,
  base: 14,
  large: 17,
  title: 20,
} as const

export const space = { hair: 2, xs: 4, s: 8, m: 12, l: 16, xl: 24, corner: 6 } as const
