/**
 * In: nothing. Out: colours of both themes, type and spacing, as an object for the canvas and as custom properties.
 * Refuses: knowing what is drawn.
 */
import '@fontsource-variable/atkinson-hyperlegible-next'

export { installTokens } from './css.ts'
export { type Theme, type ThemeName, themes, type } from './tokens.ts'
