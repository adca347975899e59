/** The one palette for what a colour means, on the screen, on paper and in plots. */

/** Okabe and Ito, Color Universal Design (2008): eight colours told apart with every kind of colour vision. */
export const okabeIto = {
  black: '#000000',
  orange: '#e69f00',
  sky: '#56b4e9',
  green: '#009e73',
  yellow: '#f0e442',
  blue: '#0072b2',
  vermillion: '#d55e00',
  purple: '#cc79a7',
} as const
