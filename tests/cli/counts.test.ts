/** `liftmap counts`: closed cases become the file that shops pool; what does not count is named with its reason. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { good, type Result } from '../../src/base/index.ts'
import { nodeIo } from '../../src/cli/io.ts'
import { runCommandLine } from '../../src/cli/run.ts'
import { readCounts } from '../../src/rehearsal/index.ts'

const demo: { handBack: object; board: object } = JSON.parse(readFileSync('demo-data/returned-card.case.json', 'utf8'))

const causes = {
  settled: 'all',
  parts: [
    { ref: 'U15', was: 'under', minutes: 55 },
    { ref: 'U16', was: 'under', harmed: true },
  ],
}

const closed = (change: object = {}, handBack: object = {}): string =>
  JSON.stringify({
    ...demo,
    demo: false,
    handBack: { ...demo.handBack, on: '2026-03-09', outcome: 'repaired', causes, ...handBack },
    ...change,
  })

/** @param files by the name under which they are asked for; the rest lies on the disk */
async function counts(files: Readonly<Record<string, string>>, ...options: string[]) {
  const run = { code: 0, out: '', err: '' }
  run.code = await runCommandLine(['counts', ...Object.keys(files), ...options], {
    ...nodeIo,
    out: (text) => {
      run.out += text
    },
    err: (text) => {
      run.err += text
    },
    open: fromFiles(files),
    openNamed: fromFiles(files),
  })
  return run
}

const fromFiles =
  (files: Readonly<Record<string, string>>) =>
  async (path: string): Promise<Result<AsyncIterable<Uint8Array>>> => {
    const text = files[path]
    if (text !== undefined) return good(bytesOf(text))
    return await nodeIo.open(
      path.startsWith('returned-card') ? `demo-data/${path}` : path.replace(/^\.\.\/boards/, 'boards'),
    )
  }

async function* bytesOf(text: string): AsyncIterable<Uint8Array> {
  yield new TextEncoder().encode(text)
}

describe('closed cases', () => {
  test('add up to a file that can be taken in, without the name of a board, a part, a day or an owner', async () => {
    const { code, out, err } = await counts({ one: closed(), two: closed() })
    expect({ code, err }).toEqual({ code: 0, err: '' })
    const read = readCounts(out)
    if (!read.ok) throw new Error(JSON.stringify(read.faults))
    expect(read.value.all.cards).toBe(2)
    expect(read.value.all.shares['risk.memoryDamage']).toEqual({ hits: 2, tries: 4 })
    expect(read.value.all.minutes['cost.minutesPerMemoryLift']).toEqual({ lifts: 2, minutes: 110 })
    for (const secret of ['hitch', 'bowline', 'U15', '2026', 'workshop']) expect(out).not.toContain(secret)
  })

  test('name their boards where that is wished', async () => {
    const { out } = await counts({ one: closed() }, '--boards')
    const read = readCounts(out)
    expect(read.ok && Object.values(read.value.boards)).toEqual([read.ok && read.value.all])
  })

  test('are told in lines too, what ships beside what it becomes', async () => {
    const { out } = await counts({ one: closed() }, '--text')
    expect(out).toContain('1 closed card with the cause confirmed.')
    expect(out).toMatch(/risk\.memoryDamage +1 of 2 +0\.0200 becomes 0\.0385/)
    expect(out).toMatch(/cost\.minutesPerMemoryLift +55 min in 1 lift +73\.0 becomes 71\.4/)
  })

  test('that do not count are named with the reason', async () => {
    const { code, out, err } = await counts({
      invented: closed({ demo: true }),
      open: closed({}, { outcome: undefined }),
      unconfirmed: closed({}, { causes: undefined }),
    })
    expect(code).toBe(0)
    expect(err.split('\n')).toEqual([
      'invented is not counted: it is an invented case.',
      'open is not counted: it has no outcome yet.',
      'unconfirmed is not counted: what was wrong with it is not confirmed.',
      '',
    ])
    expect(JSON.parse(out)).toEqual({
      format: 'liftmap-counts',
      version: 1,
      all: { cards: 0, shares: {}, minutes: {} },
    })
  })

  test('with a fault end it with exit 1, each fault told, nothing printed', async () => {
    const { code, out, err } = await counts({ one: closed(), wrong: '{}', 'no such file': closed({ version: 99 }) })
    expect({ code, out }).toEqual({ code: 1, out: '' })
    expect(err).toContain('found nothing, expected liftmap-case')
    expect(err).toContain('newer Liftmap')
  })
})
