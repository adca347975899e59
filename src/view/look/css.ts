/** The tokens as CSS custom properties: `--ink`, `--outline-soft`, `--type-base` and so on. */
import { space, type Theme, themes, type } from './tokens.ts'

const kebab = (name: string): string => name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)

function block(selector: string, declarations: readonly string[]): string {
  return `${selector} {\n${declarations.map((line) => `  ${line};`).join('\n')}\n}\n`
}

const colours = (theme: Theme): string[] => Object.entries(theme).map(([name, value]) => `--${kebab(name)}: ${value}`)

/** A whole stylesheet: paper is the default, `data-theme="chalk"` on any element turns what is in it dark. */
export function tokensCss(): string {
  const sizes = [
    `--family: ${type.family}`,
    ...(['small', 'base', 'large', 'title'] as const).map((name) => `--type-${name}: ${type[name]}px`),
    ...Object.entries(space).map(([name, value]) => `--space-${name}: ${value}px`),
  ]
  return [
    block(':root', [...sizes, 'color-scheme: light', ...colours(themes.paper)]),
    block('[data-theme="paper"]', ['color-scheme: light', ...colours(themes.paper)]),
    block('[data-theme="chalk"]', ['color-scheme: dark', ...colours(themes.chalk)]),
  ].join('\n')
}

const installed = new WeakSet<Document>()

/** Gives a document the stylesheet, once; no style stands inline, which the page's policy forbids. */
export function installTokens(page: Document): void {
  if (installed.has(page)) return
  installed.add(page)
  const sheet = new CSSStyleSheet()
  sheet.replaceSync(tokensCss())
  page.adoptedStyleSheets = [...page.adoptedStyleSheets, sheet]
}
