/** The command line makes one board of several data files, packed or not. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { zipSync } from 'fflate'
import { afterAll, expect, test } from 'vitest'
import { z } from 'zod'
import { nodeIo } from '../../src/cli/io.ts'
import { runCommandLine } from '../../src/cli/run.ts'
import { fixturePath } from '../support/board-data.ts'

const folder = mkdtempSync(join(tmpdir(), 'liftmap-data-'))
afterAll(() => rmSync(folder, { recursive: true }))

const answer = z.looseObject({
  ok: z.boolean(),
  parts: z.record(z.string(), z.int()),
  channels: z.int(),
  untold: z.array(z.string()),
})

async function board(...words: string[]) {
  let out = ''
  let err = ''
  const io = { ...nodeIo, out: (text: string) => void (out += text), err: (text: string) => void (err += text) }
  const code = await runCommandLine(['board', ...words], io)
  return { code, err, answer: answer.parse(JSON.parse(out)) }
}

const files = ['netlist.d356', 'places.csv'].map(fixturePath)

test('a netlist and a table of places give a board that the other verbs take', async () => {
  const made = join(folder, 'card.json')
  const { code, answer: told } = await board(...files, '--out', made)
  expect(code).toBe(0)
  expect(told).toMatchObject({ ok: true, parts: { core: 1, memory: 2 }, channels: 2 })
  expect(told.untold.join('\n')).toContain('pads and nets from netlist.d356')
  expect((await board(made)).answer).toMatchObject({ ok: true, parts: { core: 1, memory: 2 }, channels: 2 })
})

test('the same in a zip file is the same board', async () => {
  const path = join(folder, 'netlist.zip')
  writeFileSync(path, zipSync(Object.fromEntries(files.map((file) => [file, new Uint8Array(readFileSync(file))]))))
  const { answer: packed } = await board(path)
  const { answer: plain } = await board(...files)
  expect(packed.parts).toEqual(plain.parts)
})

test('a fault is told with its file and line', async () => {
  const cut = join(folder, 'cut.net')
  writeFileSync(cut, readFileSync(fixturePath('netlist.d356'), 'utf8').slice(0, 5000))
  const { code, err } = await board(cut)
  expect(code).toBe(1)
  expect(err).toMatch(/cut\.net, line \d+/)
})
