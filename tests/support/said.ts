/** Every message that the sources say, found in their syntax trees: what is said, with which placeholders, and where. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { parseSync } from 'vite'
import { sourceFilesBelow } from './rooms.ts'

export interface Said {
  /** Undefined where the message is no literal, so that no catalogue can hold it. */
  readonly message: string | undefined
  /** Names of the values given with it; undefined where they are handed on as a whole. */
  readonly values: readonly string[] | undefined
  readonly file: string
  readonly line: number
}

interface SyntaxNode {
  readonly type: string
  readonly start: number
  readonly [key: string]: unknown
}

const isNode = (value: unknown): value is SyntaxNode =>
  typeof value === 'object' && value !== null && 'type' in value && typeof value.type === 'string'

/** All that is said in the files below a folder, a path from here. */
export const saidBelow = (folder: string): Said[] =>
  sourceFilesBelow(folder).flatMap(({ path }) => saidIn(join(folder, path)))

/** Functions whose first argument is a message. */
const SAYING: ReadonlySet<unknown> = new Set(['say', 'saidAround'])

/** All messages that one file says. */
function saidIn(file: string): Said[] {
  const text = readFileSync(file, 'utf8')
  const found: Said[] = []
  const walk = (node: unknown): void => {
    if (Array.isArray(node)) {
      for (const one of node) walk(one)
      return
    }
    if (!isNode(node)) return
    const said = callOfSay(node)
    if (said !== undefined) found.push({ ...said, file, line: text.slice(0, node.start).split('\n').length })
    for (const [key, child] of Object.entries(node)) if (key !== 'parent') walk(child)
  }
  walk(parseSync(file, text).program.body)
  return found
}

function callOfSay(node: SyntaxNode): Pick<Said, 'message' | 'values'> | undefined {
  const { callee } = node
  if (node.type !== 'CallExpression' || !isNode(callee) || !SAYING.has(callee['name'])) return undefined
  const [message, values] = Array.isArray(node['arguments']) ? node['arguments'] : []
  return { message: literalOf(message), values: values === undefined ? [] : keysOf(values) }
}

const literalOf = (node: unknown): string | undefined =>
  isNode(node) && node.type === 'Literal' && typeof node['value'] === 'string' ? node['value'] : undefined

function keysOf(values: unknown): string[] | undefined {
  if (!isNode(values) || !Array.isArray(values['properties'])) return undefined
  const names: string[] = []
  for (const property of values['properties']) {
    const key: unknown = isNode(property) ? property['key'] : undefined
    if (!isNode(key) || typeof key['name'] !== 'string') return undefined
    names.push(key['name'])
  }
  return names
}
