/** Words of forms that make a board: the memory packages to choose from, and what is wrong with a field. */
import { say } from '../../base/index.ts'
import type { Fault } from '../../base/index.ts'
import { outlineNamed, type PatternPackage, patternPackages } from '../../board/index.ts'

export const packageOptions: readonly { readonly value: PatternPackage; readonly words: string }[] =
  patternPackages.map((value) => {
    const { ballCount, title, body } = outlineNamed(value)
    const kind = title.split(' ')[0] ?? ''
    return {
      value,
      words: say('{kind}, {ballCount} balls, {widthMm} × {lengthMm} mm', {
        kind,
        ballCount,
        widthMm: body.widthMm,
        lengthMm: body.lengthMm,
      }),
    }
  })

export const faultWords = ({ found, expected, todo }: Fault): string =>
  say('Found {found}, needed: {expected}.{value}', { found, expected, value: todo === undefined ? '' : ` ${todo}` })
