/** Words of forms that make a board: the memory packages to choose from, and what is wrong with a field. */
import type { Fault } from '../../base/index.ts'
import { outlineNamed, type PatternPackage, patternPackages } from '../../board/index.ts'

export const packageOptions: readonly { readonly value: PatternPackage; readonly words: string }[] =
  patternPackages.map((value) => {
    const { ballCount, title, body } = outlineNamed(value)
    const kind = title.split(' ')[0] ?? ''
    return { value, words: `${kind}, ${ballCount} balls, ${body.widthMm} × ${body.lengthMm} mm` }
  })

export const faultWords = ({ found, expected, todo }: Fault): string =>
  `Found ${found}, needed: ${expected}.${todo === undefined ? '' : ` ${todo}`}`
