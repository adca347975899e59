/** `liftmap power`: the fields that can be counted on, the same judgement as on the screen, shorts and what was not measured. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { good } from '../../src/base/index.ts'
import { loadCase, openCase, powerOf } from '../../src/case/index.ts'
import { nodeIo } from '../../src/cli/io.ts'
import { outputSchemas } from '../../src/cli/output.ts'
import { runCommandLine } from '../../src/cli/run.ts'

const BOARD = 'boards/hitch-12.json'
const CASE = 'demo-data/wept-fitting.case.json'
/** Without its reports: power does not ask them. */
const demo: object = { ...JSON.parse(readFileSync(CASE, 'utf8')), reports: [] }

async function power(change: object, words: string[] = []): Promise<{ code: number; out: string; err: string }> {
  const run = { code: 0, out: '', err: '' }
  const text = JSON.stringify({ ...demo, ...change })
  run.code = await runCommandLine(['power', '-', ...words], {
    ...nodeIo,
    out: (more) => {
      run.out += more
    },
    err: (more) => {
      run.err += more
    },
    open: async (path) =>
      path === '-' ? good(bytesOf(text)) : await nodeIo.open(path.replace(/^(?:\.\.\/)?boards/, 'boards')),
    openNamed: (path) => nodeIo.openNamed(path.replace(/^(?:\.\.\/)?boards/, 'boards')),
  })
  return run
}

async function* bytesOf(text: string): AsyncIterable<Uint8Array> {
  yield new TextEncoder().encode(text)
}

const answerOf = async (change: object) => {
  const run = await power(change)
  expect([run.code, run.err]).toEqual([0, ''])
  return outputSchemas.power.parse(JSON.parse(run.out))
}

const rail = (name: string, reading: object) => ({
  line: { kind: 'rail', name },
  quantity: 'ohms',
  reading,
  typed: 'x',
})
const well = Object.entries({ '12V': 2200, VCORE: 0.8, VMEM: 62, '3V3': 1000, '0V9': 12, VPP: 300 }).map(
  ([name, value]) => rail(name, { kind: 'value', value }),
)

describe('liftmap power', () => {
  test('a short is no, however much else is well, and stands first among the reasons', async () => {
    const { verdict, reasons, lines } = await answerOf({ measurements: [...well, rail('VMEM', { kind: 'short' })] })
    expect(verdict).toBe('no')
    expect(reasons[0]).toContain('VMEM')
    expect(lines.find(({ line }) => line === 'VMEM')).toMatchObject({ kind: 'rail', verdict: 'short' })
  })

  test('what was not measured is unknown, and its lines say so', async () => {
    const { verdict, lines } = await answerOf({ measurements: [] })
    expect(verdict).toBe('unknown')
    expect(lines.every(({ reading }) => reading === null)).toBe(true)
  })

  test('it is the judgement of the screen: the same words, reasons and order', async () => {
    const change = { measurements: well, leads: { kind: 'zeroed' } }
    const { words, reasons } = await answerOf(change)
    const loaded = loadCase({ ...demo, ...change })
    if (!loaded.ok) throw new Error('the case did not load')
    const opened = await openCase(loaded.value, () => Promise.resolve(good(bytesOf(readFileSync(BOARD, 'utf8')))))
    if (!opened.ok) throw new Error(JSON.stringify(opened.faults))
    const { caseFile, model } = opened.value
    const judgement = powerOf(model, caseFile, 'before')
    expect(words).toBe(judgement.words)
    expect(reasons).toEqual(judgement.reasons.map(({ sentence }) => sentence))
  })

  test('as lines for people it promises nothing and keeps the cautions', async () => {
    const { out } = await power({ measurements: well, marks: [], arrival: { accident: 'none' } }, ['--text'])
    expect(out).not.toMatch(/(?<!whether it )\bis safe\b/)
    expect(out).toMatch(/Caution: /)
    expect(out).toContain('VMEM: 62 Ω')
  })
})
