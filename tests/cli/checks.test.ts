import { describe, expect, test } from 'vitest'
import { type Io, nodeIo } from '../../src/cli/io.ts'
import { suspectsOutput } from '../../src/cli/output.ts'
import { runCommandLine } from '../../src/cli/run.ts'
import { checkCatalogue } from '../../src/suspects/index.ts'

const CASE = 'demo-data/wept-fitting.case.json'

async function liftmap(words: string[]): Promise<{ code: number; out: string }> {
  let out = ''
  const io: Io = {
    ...nodeIo,
    out: (text) => {
      out += text
    },
  }
  return { code: await runCommandLine(words, io), out }
}

describe('suspects --checks', () => {
  test('adds checks of the catalogue to the JSON, most saving per minute first', async () => {
    const { code, out } = await liftmap(['suspects', CASE, '--checks'])
    expect(code).toBe(0)
    const { checks = [], decisionBits = 0, lift } = suspectsOutput.parse(JSON.parse(out))
    expect(checks.length).toBeGreaterThan(10)
    for (const powered of [false, true]) {
      const order = checks.filter((each) => each.powered === powered).map(({ saves, minutes }) => saves / minutes)
      expect(order.length).toBeGreaterThan(0)
      expect(order).toEqual(order.toSorted((a, b) => b - a))
    }
    const known = new Set(checkCatalogue.map(({ id }) => id))
    for (const { check, at, question, bits } of checks) {
      expect(known).toContain(check)
      expect(question).toContain(at)
      expect(bits).toBeLessThanOrEqual(decisionBits)
    }
    // Two packages fail and a spill is reported between them and the core: something among the first would change the list.
    const first = checks.slice(0, 5)
    expect(first.some(({ ifFound, ifNot }) => [ifFound, ifNot].some((then) => then.lift.join() !== lift.join()))).toBe(
      true,
    )
    // Nobody can always tell: the two outcomes may leave something over.
    for (const { ifFound, ifNot } of checks)
      expect(ifFound.probability + ifNot.probability).toBeLessThanOrEqual(1 + 1e-9)
  })

  test('says them in lines for people, with what each outcome changes', async () => {
    const { code, out } = await liftmap(['suspects', CASE, '--checks', '--text'])
    expect(code).toBe(0)
    expect(out).toContain('Next checks, most useful first:')
    expect(out).toMatch(/If so \([^)]+ %\): .+\./)
    expect(out).toMatch(/If not \([^)]+ %\): .+\./)
  })
})
