/** The values that an ICU message names. */
import { parse, TYPE } from '@formatjs/icu-messageformat-parser'

/** @returns their names in order, each once; undefined where the message is none of that syntax */
export function placeholdersOf(message: string): string[] | undefined {
  try {
    const names = new Set<string>()
    collect(parse(message, { ignoreTag: true }), names)
    return [...names].toSorted()
  } catch {
    return undefined
  }
}

function collect(elements: ReturnType<typeof parse>, names: Set<string>): void {
  for (const element of elements) {
    if ('value' in element && element.type !== TYPE.literal) names.add(element.value)
    if ('options' in element) for (const { value } of Object.values(element.options)) collect(value, names)
    if ('children' in element) collect(element.children, names)
  }
}
