/** The command line takes a packed case like a plain one, and tells what is wrong with it. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import bowline from '../../boards/bowline-8.json'
import { CASE_VERSION, loadCase, packCase } from '../../src/case/index.ts'
import { nodeIo } from '../../src/cli/io.ts'
import { runCommandLine } from '../../src/cli/run.ts'

const folder = mkdtempSync(join(tmpdir(), 'liftmap-packed-'))
afterAll(() => rmSync(folder, { recursive: true }))

const lanes = bowline.memory.channels.flatMap((channel) => channel.lanes.map((lane) => `${channel.part}.${lane.name}`))
const report = `lane,errors\n${lanes.map((lane) => `${lane},${lane.startsWith('U13.') ? 1200 : 0}`).join('\n')}\n`

function caseWith(entry: Readonly<Record<string, unknown>>) {
  const made = loadCase({
    format: 'liftmap-case',
    version: CASE_VERSION,
    title: 'packed',
    board: { inline: bowline },
    reports: [{ name: 'run', ...entry }],
  })
  if (!made.ok) throw new Error(JSON.stringify(made.faults))
  return made.value
}

async function suspects(path: string): Promise<{ code: number; out: string; err: string }> {
  let out = ''
  let err = ''
  const io = { ...nodeIo, out: (text: string) => void (out += text), err: (text: string) => void (err += text) }
  return { code: await runCommandLine(['suspects', path], io), out, err }
}

const plainFile = join(folder, 'plain.case.json')
const packedFile = join(folder, 'packed.case.zip')
writeFileSync(plainFile, JSON.stringify(caseWith({ text: report })))
const packed = packCase(
  caseWith({ path: 'reports/long.txt' }),
  new Map([['reports/long.txt', new TextEncoder().encode(report)]]),
)
if (packed.ok) writeFileSync(packedFile, packed.value)

test('a packed case gives the same suspects as the plain one with its report inside', async () => {
  const plain = await suspects(plainFile)
  expect(plain.code).toBe(0)
  expect(await suspects(packedFile)).toEqual(plain)
})

test('a packed case that is cut off is told with its file', async () => {
  const cut = join(folder, 'cut.case.zip')
  writeFileSync(cut, readFileSync(packedFile).subarray(0, 3000))
  const { code, err } = await suspects(cut)
  expect(code).toBe(1)
  expect(err).toContain(`${cut}, the file: found a zip file whose end is missing`)
})
