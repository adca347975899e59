/** The look: enough contrast in both themes, one palette, one list of custom properties. */
import { describe, expect, it } from 'vitest'
import { tokensCss } from '../../src/view/look/css.ts'
import { okabeIto } from '../../src/base/index.ts'
import { type Theme, themes, type } from '../../src/view/look/tokens.ts'

/** Relative luminance and contrast ratio as WCAG 2.2 defines them (https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio). */
function luminance(colour: string): number {
  const channels = [1, 3, 5].map((i) => {
    const share = Number.parseInt(colour.slice(i, i + 2), 16) / 255
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4
  })
  const [red = 0, green = 0, blue = 0] = channels
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue
}

function contrast(a: string, b: string): number {
  const [low = 0, high = 0] = [luminance(a), luminance(b)].toSorted((p, q) => p - q)
  return (high + 0.05) / (low + 0.05)
}

const textOn: readonly (readonly [keyof Theme, keyof Theme])[] = [
  ...(['ink', 'muted', 'loadText', 'reachText', 'needText', 'cleanText', 'residueText'] as const).flatMap((text) =>
    (['paper', 'sheet', 'wash'] as const).map((ground) => [text, ground] as const),
  ),
  ['ink', 'bodyFill'],
  ['muted', 'bodyFill'],
  ['muted', 'partFill'],
  ['onInk', 'ink'],
  ['ink', 'caution'],
]

describe('look', () => {
  it('measures contrast as the standard does', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6)
    // #767676 on white is the often quoted lightest grey that passes 4.5:1 (from memory)
    expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2)
  })

  // 4.5:1 for text: WCAG 2.2, success criterion 1.4.3.
  it.each(['paper', 'chalk'] as const)('has text at 4.5:1 or more in %s', (name) => {
    const theme = themes[name]
    const faint = textOn.filter(([text, ground]) => contrast(theme[text], theme[ground]) < 4.5)
    expect(faint).toEqual([])
  })

  // 3:1 for what must be seen to understand a drawing: WCAG 2.2, success criterion 1.4.11.
  it.each(['paper', 'chalk'] as const)('has lines that carry meaning at 3:1 or more in %s', (name) => {
    const theme = themes[name]
    const lines = ['load', 'reach', 'clean', 'focus', 'outlineSoft'] as const
    expect(lines.filter((line) => contrast(theme[line], theme.sheet) < 3)).toEqual([])
  })

  it('takes its meanings from Okabe and Ito’s palette', () => {
    // https://jfly.uni-koeln.de/color/ : red, green, blue of each colour (from memory)
    const published: Readonly<Record<keyof typeof okabeIto, readonly [number, number, number]>> = {
      black: [0, 0, 0],
      orange: [230, 159, 0],
      sky: [86, 180, 233],
      green: [0, 158, 115],
      yellow: [240, 228, 66],
      blue: [0, 114, 178],
      vermillion: [213, 94, 0],
      purple: [204, 121, 167],
    }
    for (const [name, rgb] of Object.entries(published)) {
      const hex = `#${rgb.map((value) => value.toString(16).padStart(2, '0')).join('')}`
      expect(Object.entries(okabeIto)).toContainEqual([name, hex])
    }
  })

  it('writes every colour of both themes as a custom property', () => {
    const css = tokensCss()
    for (const theme of Object.values(themes))
      for (const value of Object.values(theme)) expect(css).toContain(`: ${value};`)
    expect(css).toContain('--outline-soft:')
    expect(css).toContain('[data-theme="chalk"]')
  })

  it('has no type below 12 px', () => {
    expect(Math.min(type.small, type.base, type.large, type.title)).toBeGreaterThanOrEqual(12)
  })
})
