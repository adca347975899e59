/** Words of forms that make a board: the memory packages to choose from, and what is wrong with a field. */
import { type Fault, say } from '../../base/index.ts'
import { isStack, outlineNamed, type PatternPackage, patternPackages } from '../../board/index.ts'

export const packageOptions: readonly { readonly value: PatternPackage; readonly words: string }[] =
  patternPackages.map((value) => {
    const { ballCount, title, body } = outlineNamed(value)
    const kind = title.split(' ')[0] ?? ''
    const { widthMm, lengthMm } = body
    const words = isStack(value)
      ? say('{kind}, stack on the core, {widthMm} × {lengthMm} mm', { kind, widthMm, lengthMm })
      : say('{kind}, {ballCount} balls, {widthMm} × {lengthMm} mm', { kind, ballCount, widthMm, lengthMm })
    return { value, words }
  })

export function faultWords({ found, expected, todo }: Fault): string {
  const sentence = say('Found {found}, needed: {expected}.', { found, expected })
  return todo === undefined ? sentence : `${sentence} ${todo}`
}
