/** JSON as a person would lay it out: what fits on a line stays on it. */
const LINE_CHARACTERS = 180

export const jsonText = (value: unknown): string => `${laidOut(value, 0)}\n`

function laidOut(value: unknown, indent: number): string {
  const flat = flatText(value)
  if (flat.length + indent <= LINE_CHARACTERS || typeof value !== 'object' || value === null) return flat
  const pad = ' '.repeat(indent + 2)
  const end = ' '.repeat(indent)
  if (Array.isArray(value)) {
    if (value.every((item) => typeof item === 'string')) return `[\n${packed(value, indent + 2)}\n${end}]`
    const lines = value.map((item) => `${pad}${laidOut(item, indent + 2)}`)
    return `[\n${lines.join(',\n')}\n${end}]`
  }
  const lines = entriesOf(value).map(([key, item]) => `${pad}${JSON.stringify(key)}: ${laidOut(item, indent + 2)}`)
  return `{\n${lines.join(',\n')}\n${end}}`
}

/** A long list of names, as many on a line as fit. */
function packed(names: readonly string[], indent: number): string {
  const pad = ' '.repeat(indent)
  const lines: string[] = []
  let line = ''
  for (const [i, name] of names.entries()) {
    const item = JSON.stringify(name) + (i < names.length - 1 ? ',' : '')
    if (line !== '' && indent + line.length + 1 + item.length > LINE_CHARACTERS) {
      lines.push(pad + line)
      line = item
    } else line = line === '' ? item : `${line} ${item}`
  }
  return [...lines, pad + line].join('\n')
}

function flatText(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(flatText).join(', ')}]`
  if (typeof value !== 'object' || value === null) return JSON.stringify(value)
  const entries = entriesOf(value).map(([key, item]) => `${JSON.stringify(key)}: ${flatText(item)}`)
  return entries.length === 0 ? '{}' : `{ ${entries.join(', ')} }`
}

const entriesOf = (value: object): [string, unknown][] => Object.entries(value).filter(([, item]) => item !== undefined)
