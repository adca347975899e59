/** `liftmap proof`: the fields that can be counted on, the demo visit, clean texts, entries without a file, bad input. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { good } from '../../src/base/index.ts'
import { nodeIo } from '../../src/cli/io.ts'
import { outputSchemas } from '../../src/cli/output.ts'
import { runCommandLine } from '../../src/cli/run.ts'

const CASE = 'demo-data/returned-card.case.json'

async function liftmap(words: string[], stdin = ''): Promise<{ code: number; out: string; err: string }> {
  const run = { code: 0, out: '', err: '' }
  run.code = await runCommandLine(words, {
    ...nodeIo,
    out: (text) => {
      run.out += text
    },
    err: (text) => {
      run.err += text
    },
    open: async (path) =>
      path === '-' ? good(bytesOf(stdin)) : await nodeIo.open(path.replace(/^(?:\.\.\/)?boards/, 'boards')),
    openNamed: (path) => nodeIo.openNamed(path.replace(/^(?:\.\.\/)?boards/, 'boards')),
  })
  return run
}

async function* bytesOf(text: string): AsyncIterable<Uint8Array> {
  yield new TextEncoder().encode(text)
}

const proofOf = async (words: string[], stdin = '') => {
  const run = await liftmap(['proof', ...words], stdin)
  expect(run.err).toBe('')
  expect(run.code).toBe(0)
  return outputSchemas.proof.parse(JSON.parse(run.out))
}

/** The demo visit with its reports changed; read from standard input, with its files named from here. */
function changed(change: (reports: Record<string, unknown>[]) => unknown[]): string {
  const demo = z
    .looseObject({ reports: z.array(z.looseObject({ path: z.string() })) })
    .parse(JSON.parse(readFileSync(CASE, 'utf8')))
  const reports = demo.reports.map((report) => ({ ...report, path: `demo-data/${report.path}` }))
  return JSON.stringify({ ...demo, reports: change(reports) })
}

describe('the demo visit', () => {
  test('what failed is gone, nothing is new or untested, and 12 passes bound it as 1 − 0.05^(1/12) says', async () => {
    const answer = await proofOf([CASE])
    expect(answer).toMatchObject({ passes: 12, failingPasses: 0, fresh: [], still: [], untested: [], notTold: [] })
    expect(answer.gone).toEqual(['U15.B0', 'U15.B1', 'U15.B2', 'U15.B3', 'U16.B1'])
    expect(answer.boundPerPass95).toBeCloseTo(1 - 0.05 ** (1 / 12), 12)
    expect(answer.ruleOfThree95).toBe(0.25)
    expect(answer.lanes.find(({ id }) => id === 'U16.B1')?.bits).toEqual({ gone: [3], fresh: [], still: [] })
    expect(answer.runs.map(({ kind }) => kind)).toEqual(['overtaken', 'clean'])
  })

  test('a run that work went on after counts again once that is taken back: a line still fails, and one pass of 13', async () => {
    const answer = await proofOf(
      ['-'],
      changed((reports) => reports.map((report) => ({ ...report, overtaken: false }))),
    )
    expect(answer.still).toEqual(['U16.B1'])
    expect(answer).toMatchObject({ passes: 12, failingPasses: 1, ruleOfThree95: null })
    expect(answer.boundPerPass95).toBeGreaterThan(1 - 0.05 ** (1 / 13))
  })

  test('for people it says what is gone, the bound in words, what it leaves open, and the cautions', async () => {
    const { out } = await liftmap(['proof', CASE, '--text'])
    expect(out).toContain('Gone: U15.B0')
    expect(out).toContain('at most 22.1 %, at 95 % confidence')
    expect(out).toContain('Vary the temperature')
    expect(out).toContain('VPP, ohms: before 31, after 240')
    expect(out).toMatch(/Caution: .*first power after work/)
  })
})

describe('runs without a row of errors', () => {
  const first = (reports: readonly unknown[]) => reports.slice(0, 1)

  test('an entry without a file stands for the passes that it names', async () => {
    const entry = { name: 'ran 4 passes', table: [], run: 'retest', testPasses: 4, coversAll: true }
    const answer = await proofOf(
      ['-'],
      changed((reports) => [...first(reports), entry]),
    )
    expect(answer).toMatchObject({ passes: 4, untested: [] })
    expect(answer.gone).toHaveLength(5)
  })

  test('a text in which no line reads as a row counts once it is said to go over the whole memory', async () => {
    const text = 'Memory walk finished\nPass 1 of 2: no errors\nPass 2 of 2: no errors\n'
    const entry = { name: 'clean.log', text, run: 'retest', testPasses: 2 }
    const unsaid = await proofOf(
      ['-'],
      changed((reports) => [...first(reports), entry]),
    )
    expect(unsaid).toMatchObject({ passes: 0, boundPerPass95: null, gone: [] })
    expect(unsaid.untested.slice(0, 5)).toEqual(['U15.B0', 'U15.B1', 'U15.B2', 'U15.B3', 'U16.B1'])
    expect(unsaid.untested).toHaveLength(40)
    expect(unsaid.notProven.join(' ')).toContain('clean.log')
    const said = await proofOf(
      ['-'],
      changed((reports) => [...first(reports), { ...entry, coversAll: true }]),
    )
    expect(said).toMatchObject({ passes: 2, untested: [] })
    expect(said.gone).toHaveLength(5)
  })

  test('without any run after the work there is no bound, and all lanes are untested, those that failed first', async () => {
    const answer = await proofOf(['-'], changed(first))
    expect(answer).toMatchObject({ passes: 0, boundPerPass95: null, ruleOfThree95: null, gone: [], runs: [] })
    expect(answer.untested[4]).toBe('U16.B1')
    expect(answer.bound).toMatch(/^No bound/)
  })
})

test('a report that is not there ends with 1 and names it', async () => {
  const run = await liftmap(
    ['proof', '-'],
    changed((reports) => reports.map((report) => ({ ...report, path: 'nowhere.txt' }))),
  )
  expect(run.code).toBe(1)
  expect(run.err).toContain('nowhere.txt')
})

test('--help shows an example', async () => {
  const { code, out } = await liftmap(['proof', '--help'])
  expect(code).toBe(0)
  expect(out).toContain('liftmap proof demo-data/returned-card.case.json')
})
