/** `tally` with names of a report's own: asked about, placed, kept in a file, taken for the next report. */
import { expect, test } from 'vitest'
import { good } from '../../src/base/index.ts'
import { type Io, nodeIo } from '../../src/cli/io.ts'
import { outputSchemas } from '../../src/cli/output.ts'
import { runCommandLine } from '../../src/cli/run.ts'

const BOARD = 'boards/bowline-8.json'
const first = 'C3 low: 1432 errors\nC4 low: 0 errors\nC3 high: 0 errors\nC4 high: 0 errors\n'

async function tally(words: string[], files: Map<string, string>) {
  let out = ''
  let err = ''
  const io: Io = {
    ...nodeIo,
    out: (text) => (out += text),
    err: (text) => (err += text),
    open: async (path) => {
      const text = files.get(path)
      return text === undefined ? await nodeIo.open(path) : good(oneChunk(text))
    },
    write: (path, content) => {
      if (typeof content === 'string') files.set(path, content)
      return good(undefined)
    },
  }
  const code = await runCommandLine(['tally', BOARD, ...words], io)
  return { code, err, answer: code === 0 ? outputSchemas.tally.parse(JSON.parse(out)) : undefined }
}

async function* oneChunk(text: string): AsyncIterable<Uint8Array> {
  yield new TextEncoder().encode(text)
}

test('names are told with the systems that they may follow, and not taken for anything', async () => {
  const { answer } = await tally(['first.txt'], new Map([['first.txt', first]]))
  expect(answer?.sure).not.toBe('sure')
  expect(answer?.foreign.map(({ name }) => name)).toEqual(['C3 low', 'C4 low', 'C3 high', 'C4 high'])
  expect(answer?.patterns[0]).toBe('in order of refs, counted from 0, two per package')
})

test('one that is placed fills the rest, and a kept file reads the next report', async () => {
  const files = new Map([
    ['first.txt', first],
    ['next.txt', first.replace('1432', '0').replace('C4 high: 0', 'C4 high: 9')],
  ])
  const placed = await tally(['first.txt', '--place', 'c3 low=CH8', '--keep', 'words.json'], files)
  expect(placed.answer?.sure).toBe('sure')
  expect(placed.answer?.parts.flatMap(({ ref, errors }) => (errors > 0 ? [[ref, errors]] : []))).toEqual([
    ['U15', 1432],
  ])
  const next = await tally(['next.txt', '--names', 'words.json'], files)
  expect(next.answer?.sure).toBe('sure')
  expect(next.answer?.parts.flatMap(({ ref, errors }) => (errors > 0 ? [[ref, errors]] : []))).toEqual([['U16', 9]])
})

test('a place that the board does not have is refused in words', async () => {
  const { code, err } = await tally(['first.txt', '--place', 'C3 low=CH99'], new Map([['first.txt', first]]))
  expect(code).toBe(1)
  expect(err).toContain('C3 low is to mean CH99, which bowline-8 does not have.')
})
