/**
 * One more member of a union is asked for by the compiler wherever it matters: the sources are copied with each union one
 * member longer, compiled, and the places that the compiler names are held against those that have to know the member.
 */
import { execFile } from 'node:child_process'
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { promisify } from 'node:util'
import { afterAll, beforeAll, expect, test } from 'vitest'

/** A member that is added, where its union is written, and the files that may not compile without it. */
const added = {
  fuse: {
    union: 'src/board/schema.ts',
    from: "  'other',\n])",
    to: "  'other',\n  'fuse',\n])",
    places: ['src/board/part-kinds.ts', 'src/suspects/prices/work.ts', 'src/heat/assumptions.ts'],
  },
  evaporates: {
    union: 'src/spill/substance/substance.ts',
    from: "['wets', 'pinned', 'crust']",
    to: "['wets', 'pinned', 'crust', 'evaporates']",
    places: ['src/spill/substance/ways-of-moving.ts', 'src/spill/substance/substance.ts', 'src/spill/flow/film.ts'],
  },
  temperature: {
    union: 'src/report/recipe.ts',
    from: "  'ignore',\n])",
    to: "  'ignore',\n  'temperature',\n])",
    places: [
      'src/report/column-roles.ts',
      'src/report/names/headings.ts',
      'src/report/rows/row.ts',
      'src/view/stations/memory-run/ColumnHead.tsx',
    ],
  },
  xml: {
    union: 'src/report/recipe.ts',
    from: "  z.strictObject({ kind: z.literal('json') })",
    to: "  z.strictObject({ kind: z.literal('xml') }),\n  z.strictObject({ kind: z.literal('json') })",
    places: [
      'src/report/text/cells.ts',
      'src/report/guess/likelihoods.ts',
      'src/view/stations/memory-run/LayoutFields.tsx',
    ],
  },
  drawing: {
    union: 'src/case/file-kinds.ts',
    from: "  empty: { ...plain, words: say('an empty file') },",
    to: "  empty: { ...plain, words: say('an empty file') },\n  drawing: { ...plain, words: 'a drawing' },",
    places: ['src/view/actions/drop.ts', 'src/cli/files.ts'],
  },
} as const

type Member = keyof typeof added
const members: readonly Member[] = ['fuse', 'evaporates', 'temperature', 'xml', 'drawing']

const folder = mkdtempSync(join(tmpdir(), 'liftmap-unions-'))
const inFolder = (path: string): string => join(folder, path)
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** What the compiler says of the copy: a file and its sentence each. */
let said: readonly { readonly file: string; readonly sentence: string }[] = []

beforeAll(async () => {
  cpSync('src', inFolder('src'), { recursive: true })
  for (const shared of ['node_modules', 'boards', 'demo-data', 'package.json'])
    symlinkSync(resolve(shared), inFolder(shared))
  const plain = readFileSync('tsconfig.json', 'utf8')
  writeFileSync(inFolder('tsconfig.json'), plain.replace(/"include": \[[^\]]*\]/, '"include": ["src"]'))
  for (const member of members) {
    const { union, from, to } = added[member]
    const text = readFileSync(inFolder(union), 'utf8')
    if (!text.includes(from)) throw new Error(`${union} has no ${JSON.stringify(from)} to put ${member} behind`)
    writeFileSync(inFolder(union), text.replace(from, to))
  }
  const compiler = resolve('node_modules/typescript/bin/tsc')
  const output = await promisify(execFile)(process.execPath, [compiler, '-p', folder, '--pretty', 'false'], {
    cwd: folder,
    maxBuffer: 64_000_000,
  }).then(
    ({ stdout }) => stdout,
    (failed: unknown) => (failed instanceof Error && 'stdout' in failed ? String(failed.stdout) : String(failed)),
  )
  said = output.split('\n').flatMap((line) => {
    const [, file, sentence] = /^(src\/[^(]+)\(\d+,\d+\): error TS\d+: (.*)$/.exec(line) ?? []
    return file === undefined || sentence === undefined ? [] : [{ file, sentence }]
  })
}, 120_000)

test.each(members)('one member more of a union, %s, is asked for wherever it matters', (member) => {
  const asked = new Set(said.filter(({ sentence }) => sentence.includes(member)).map(({ file }) => file))
  expect(added[member].places.filter((place) => !asked.has(place))).toEqual([])
})
