/** Whoever calls an exported function of a room finds beside it what no signature tells. */
import { resolve } from 'node:path'
import { parseSync } from 'vite'
import { expect, test } from 'vitest'
import { sourceFilesBelow, type SourceFile } from '../support/rooms.ts'

const ROOMS = [
  'base',
  'board',
  'report',
  'measure',
  'spill',
  'suspects',
  'heat',
  'plan',
  'rehearsal',
  'case',
  'workers',
  'cli',
]

type Parsed = ReturnType<typeof parseSync>
type Statement = Parsed['program']['body'][number]

test.each(ROOMS)('every exported function of %s has a docstring', (room) => {
  const files = sourceFilesBelow(resolve('src', room))
  expect(files.length).toBeGreaterThan(0)
  expect(files.flatMap((file) => bareExports({ ...file, path: `src/${room}/${file.path}` }))).toEqual([])
})

test.each([
  ['a function without any comment', 'export function a() {}', ['a.ts:1 a']],
  ['an arrow function', 'export const a = () => 1', ['a.ts:1 a']],
  ['an asynchronous function', '\nexport async function a() {}', ['a.ts:2 a']],
  [
    'the second of two, whose comment stands above the first',
    '/** One. */\nexport const a = () => 1\nexport const b = () => 2',
    ['a.ts:3 b'],
  ],
  ['a plain comment', '// One.\nexport const a = () => 1', ['a.ts:2 a']],
  ['the comment of a file, with a blank line below', '/** A file. */\n\nexport const a = () => 1', ['a.ts:3 a']],
  ['a comment without words', '/** */\nexport const a = () => 1', ['a.ts:2 a']],
])('%s is found', (_, text, found) => {
  expect(bareExports({ path: 'a.ts', text })).toEqual(found)
})

test.each([
  ['a docstring', '/** One. */\nexport function a() {}'],
  ['a docstring of several lines', '/**\n * One.\n */\nexport const a = () => 1'],
  ['a function that stays in its file', 'function a() {}\nconst b = () => 1'],
  ['a constant', 'export const a = 1'],
  ['a type', 'export interface A { readonly a: number }'],
])('%s is no fault', (_, text) => {
  expect(bareExports({ path: 'a.ts', text })).toEqual([])
})

/** `path:line name` of each exported function without a docstring straight above it. */
function bareExports({ path, text }: SourceFile): string[] {
  const { program, comments } = parseSync(path, text)
  return program.body.flatMap((statement) => {
    const name = exportedFunction(statement)
    if (name === undefined || isDocumented(text, comments, statement.start)) return []
    return [`${path}:${text.slice(0, statement.start).split('\n').length} ${name}`]
  })
}

/** Name of the function that a statement exports, or undefined. */
function exportedFunction(statement: Statement): string | undefined {
  if (statement.type !== 'ExportNamedDeclaration') return undefined
  const { declaration } = statement
  if (declaration?.type === 'FunctionDeclaration') return declaration.id?.name
  if (declaration?.type !== 'VariableDeclaration') return undefined
  const [found] = declaration.declarations.flatMap(({ id, init }) =>
    id.type === 'Identifier' && (init?.type === 'ArrowFunctionExpression' || init?.type === 'FunctionExpression')
      ? [id.name]
      : [],
  )
  return found
}

/** A doc comment with words in it ends on the line above. */
function isDocumented(text: string, comments: Parsed['comments'], start: number): boolean {
  const nearest = comments.findLast(({ end }) => end <= start)
  if (nearest?.type !== 'Block' || !nearest.value.startsWith('*')) return false
  return /^[ \t]*\n[ \t]*$/.test(text.slice(nearest.end, start)) && /\p{L}/u.test(nearest.value)
}
