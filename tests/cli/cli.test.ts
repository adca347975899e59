import { themes } from '../../src/case/index.ts'
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { bad, good } from '../../src/base/index.ts'
import { type Io, nodeIo } from '../../src/cli/io.ts'
import { outputSchemas } from '../../src/cli/output.ts'
import { runCommandLine } from '../../src/cli/run.ts'

interface Run {
  code: number
  out: string
  err: string
  written: Map<string, string>
}

const answered = new Map<string, Promise<Run>>()

/** What these words answer: the same each time, and so asked once where nothing comes through standard input. */
function liftmap(words: string[], stdin?: string): Promise<Run> {
  if (stdin !== undefined) return asked(words, stdin)
  const key = JSON.stringify(words)
  const answer = answered.get(key) ?? asked(words, '')
  answered.set(key, answer)
  return answer
}

async function asked(words: string[], stdin: string): Promise<Run> {
  const run: Run = { code: 0, out: '', err: '', written: new Map() }
  const io: Io = {
    out: (text) => {
      run.out += text
    },
    err: (text) => {
      run.err += text
    },
    open: async (path) =>
      path === '-'
        ? good(bytesOf(stdin))
        : path.startsWith('memory:')
          ? bad({ path, found: 'x', expected: 'y' })
          : await nodeIo.open(path),
    openNamed: nodeIo.openNamed,
    write: (path, content) => {
      if (typeof content === 'string') run.written.set(path, content)
      return good(undefined)
    },
  }
  run.code = await runCommandLine(words, io)
  return run
}

async function* bytesOf(text: string): AsyncIterable<Uint8Array> {
  yield new TextEncoder().encode(text)
}

const json = (run: Run): unknown => JSON.parse(run.out)

const BOARD = 'boards/hitch-12.json'
const CASE = 'demo-data/wept-fitting.case.json'

describe('help', () => {
  test.each(['board', 'where', 'tally', 'reach', 'suspects', 'heat', 'plan', 'picture', 'record'])(
    '%s --help shows an example and ends well',
    async (verb) => {
      const run = await liftmap([verb, '--help'])
      expect(run.code).toBe(0)
      expect(run.out).toContain(`Example:\n  liftmap ${verb} `)
    },
  )
})

describe('exit codes', () => {
  test.each([
    [[]],
    [['fly']],
    [['board']],
    [['board', BOARD, '--colour']],
    [['picture', CASE, '--side', 'left']],
    [['picture', CASE, '--show', 'heat']],
  ])('wrong usage ends with 2: %j', async (words) => {
    const run = await liftmap(words)
    expect(run.code).toBe(2)
    expect(run.err).not.toBe('')
    expect(run.out).toBe('')
  })

  test('a file that is not there ends with 1 and says which', async () => {
    const run = await liftmap(['suspects', 'demo-data/nowhere.case.json'])
    expect(run.code).toBe(1)
    expect(run.err).toContain('nowhere.case.json')
  })
})

describe('board', () => {
  test('a shipped board is fine and its parts are counted', async () => {
    const run = await liftmap(['board', BOARD])
    expect(run.code).toBe(0)
    const answer = outputSchemas.board.parse(json(run))
    expect(answer).toMatchObject({
      ok: true,
      name: 'hitch-12',
      channels: 24,
      faults: [],
      parts: { core: 1, memory: 12 },
    })
  })

  test('every fault of a bad board is told at once, on both streams', async () => {
    const board = z.looseObject({ parts: z.array(z.looseObject({})) }).parse(JSON.parse(readFileSync(BOARD, 'utf8')))
    board.parts[0] = { ...board.parts[0], side: 'left' }
    board.parts[1] = { ...board.parts[1], at: { x: 'far', y: 1 } }
    const run = await liftmap(['board', '-'], JSON.stringify(board))
    expect(run.code).toBe(1)
    const answer = outputSchemas.board.parse(json(run))
    expect(answer.ok).toBe(false)
    expect(answer.faults.map((fault) => fault.path)).toEqual(['$.parts[0].side', '$.parts[1].at.x'])
    expect(run.err).toContain('$.parts[0].side: found "left", expected top or bottom.')
  })

  test('--out writes a description that loads again', async () => {
    const run = await liftmap(['board', BOARD, '--out', 'copy.json'])
    const copied = await liftmap(['board', '-'], run.written.get('copy.json'))
    expect(json(copied)).toEqual(json(run))
  })
})

describe('where', () => {
  test('addresses come as words or one a line, and both ways give the same', async () => {
    const asWords = await liftmap(['where', BOARD, '0x0', '4096', '0x1F400'])
    const asLines = await liftmap(['where', BOARD, '-'], '0x0\n4096\r\n0x1F400\n')
    expect(asWords.code).toBe(0)
    expect(outputSchemas.where.parse(json(asWords))).toHaveLength(3)
    expect(json(asLines)).toEqual(json(asWords))
  })

  test('an address beyond the memory is not mapped to anything', async () => {
    const run = await liftmap(['where', BOARD, '0xfffffffffffff'])
    expect(outputSchemas.where.parse(json(run))[0]).toMatchObject({ channel: null, part: null })
  })

  test('words that are no addresses are each told', async () => {
    const run = await liftmap(['where', BOARD, '0x10', 'here', '12g'])
    expect(run.code).toBe(1)
    expect(run.err).toContain('address 2: found here')
    expect(run.err).toContain('address 3: found 12g')
  })
})

describe('case verbs', () => {
  test('reach says how far the spill of the demo case got', async () => {
    const run = await liftmap(['reach', CASE])
    expect(run.code).toBe(0)
    const answer = outputSchemas.reach.parse(json(run))
    expect(answer.radiusMm).toBeGreaterThan(0)
    expect(answer.parts.length).toBeGreaterThan(0)
  })

  test('suspects gives stories that sum to one with the remainder, and cautions', async () => {
    const run = await liftmap(['suspects', CASE])
    const answer = outputSchemas.suspects.parse(json(run))
    const total = answer.stories.reduce((sum, story) => sum + story.probability, answer.remainder)
    expect(total).toBeCloseTo(1, 9)
    expect(answer.lift.length).toBeGreaterThan(0)
    expect(answer.cautions.join(' ')).toContain('Do not power the card yet')
  })

  test('--text says the same list in words', async () => {
    const asJson = outputSchemas.suspects.parse(json(await liftmap(['suspects', CASE])))
    const asText = await liftmap(['suspects', CASE, '--text'])
    expect(asJson.proposal.steps[0]?.action).toBe('wash')
    expect(asText.out.split('\n')[0]).toBe(`Lift, if it still fails once it was washed: ${asJson.lift.join(', ')}`)
  })

  test('a list that waits for a fault no lift mends says so', async () => {
    const slipped = ['suspects', 'demo-data/slipped-tool.case.json']
    const asJson = outputSchemas.suspects.parse(json(await liftmap(slipped)))
    expect(asJson.proposal.steps[0]?.action).toBe('repair-around')
    const asText = await liftmap([...slipped, '--text'])
    expect(asText.out.split('\n')[0]).toBe(`Lift, if it still fails after step 1 below: ${asJson.lift.join(', ')}`)
  })

  test('plan tells of all that is proposed the chance that suspects tells, and of its own steps no more than that', async () => {
    const { proposal } = outputSchemas.suspects.parse(json(await liftmap(['suspects', CASE])))
    const { whole, success } = outputSchemas.plan.parse(json(await liftmap(['plan', CASE])))
    expect(whole?.works).toBeCloseTo(proposal.works ?? Number.NaN, 6)
    expect(success).toBeLessThanOrEqual(whole?.works ?? 0)
  })

  test('picture says in one line which side it wrote where', async () => {
    const run = await liftmap(['picture', CASE, '--side', 'bottom', '--out', 'sheet.svg'])
    expect([run.code, run.out]).toEqual([0, ''])
    expect(run.err).toMatch(/^Wrote the bottom side of \S+ to sheet\.svg\.\n$/)
    expect(run.written.get('sheet.svg')).toContain('<svg')
  })

  test('picture draws the chosen overlays and no others', async () => {
    const all = await liftmap(['picture', CASE])
    const bare = await liftmap(['picture', CASE, '--show', 'marks'])
    expect(all.out.startsWith('<svg ')).toBe(true)
    expect(all.out).toContain(themes.paper.load)
    expect(bare.out).not.toContain(themes.paper.load)
    expect(bare.out).toContain('>coolant</text>')
  })
})

describe('rework verbs', () => {
  test('heat names the setting, the target first, and who else melts', async () => {
    const run = await liftmap(['heat', 'demo-data/tired-rows.case.json', 'U14'])
    expect(run.code).toBe(0)
    const answer = outputSchemas.heat.parse(json(run))
    expect(answer.settings?.nozzle.sizeMm).toBeGreaterThan(0)
    expect(answer.parts[0]).toMatchObject({ ref: 'U14', melts: true, overLimit: false })
    expect(answer.cautions.length).toBeGreaterThan(3)
  })

  test('heat of a part that is not there ends with 1', async () => {
    const run = await liftmap(['heat', 'demo-data/tired-rows.case.json', 'U99'])
    expect(run.code).toBe(1)
    expect(run.err).toContain('U99')
  })

  test('plan lifts, cleans and refits what the lift list names, with materials and an optimum', async () => {
    const suspects = outputSchemas.suspects.parse(json(await liftmap(['suspects', 'demo-data/tired-rows.case.json'])))
    const run = await liftmap(['plan', 'demo-data/tired-rows.case.json'])
    expect(run.code).toBe(0)
    const answer = outputSchemas.plan.parse(json(run))
    const actions = answer.steps.map((step) => step.action)
    expect(answer.steps.find((step) => step.action === 'lift')?.refs).toEqual(suspects.lift)
    expect(actions.indexOf('lift')).toBeLessThan(actions.indexOf('clean'))
    expect(actions.indexOf('clean')).toBeLessThan(actions.indexOf('refit'))
    expect(answer.materials.length).toBeGreaterThan(0)
  })

  test('plan of a case with nothing to lift says so and ends with 1', async () => {
    const run = await liftmap(['plan', 'tests/fixtures/nothing-fails.case.json'])
    expect(run.code).toBe(1)
    expect(run.err).toContain('an empty list')
  })
})
