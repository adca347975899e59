/**
 * In: nothing. Out: colours of both themes, type and spacing, as an object for the canvas and as custom properties.
 * Refuses: knowing what is drawn.
 */
import '@fontsource-variable/atkinson-hyperlegible-next'

export { installTokens, tokensCss } from './css.ts'
export { okabeIto, space, type Theme, type ThemeName, themes, type } from './tokens.ts'
