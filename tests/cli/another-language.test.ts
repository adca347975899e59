/** In another language the command line answers the same: what is computed does not hang on how it is said. */
import { beforeAll, describe, expect, test, vi } from 'vitest'
import { everythingMarked } from '../support/everything-marked.ts'

const DEMO = 'demo-data/wept-fitting.case.json'
const VERBS: readonly (readonly string[])[] = [
  ['board', 'boards/hitch-12.json'],
  ['board', 'tests/fixtures/kicad/version-5.kicad_pcb'],
  ['where', 'boards/hitch-12.json', '0x1f400', '0x2000'],
  ['tally', 'boards/hitch-12.json', 'demo-data/wept-fitting.report.txt'],
  ['tally', 'boards/bowline-8.json', 'demo-data/slipped-tool.report.csv'],
  ['reach', DEMO],
  ['suspects', DEMO, '--checks'],
  ['suspects', 'demo-data/slipped-tool.case.json'],
  ['heat', DEMO, 'U14'],
  ['plan', DEMO],
  ['power', DEMO],
  ['proof', 'demo-data/returned-card.case.json'],
]

type CommandLine = (words: readonly string[]) => Promise<unknown>

/** The command line with all its rooms, loaded after the language was chosen; answers what a verb prints, reckoned once. */
async function commandLineIn(language: string, catalogue: Readonly<Record<string, string>>): Promise<CommandLine> {
  vi.resetModules()
  const { speak } = await import('../../src/base/index.ts')
  speak(language, catalogue)
  const { runCommandLine } = await import('../../src/cli/run.ts')
  const { nodeIo } = await import('../../src/cli/io.ts')
  const printed = async (words: readonly string[]): Promise<unknown> => {
    let out = ''
    const print = (more: string): void => {
      out += more
    }
    // what is told on the way is for people
    await runCommandLine(words, { ...nodeIo, out: print, err: () => undefined })
    return JSON.parse(out)
  }
  const answered = new Map<string, Promise<unknown>>()
  return (words) => {
    const key = words.join(' ')
    const answer = answered.get(key) ?? printed(words)
    answered.set(key, answer)
    return answer
  }
}

/** Every text that is a sentence in either language is left out; keys, numbers and machine words stay. */
const computed = (value: unknown, other: unknown): unknown => {
  if (typeof value === 'string') return typeof other === 'string' && other.includes('⟦') ? undefined : value
  if (Array.isArray(value)) return value.map((one, i) => computed(one, Array.isArray(other) ? other[i] : undefined))
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(
    Object.entries(value).map(([name, one]) => [
      name,
      computed(one, typeof other === 'object' && other !== null ? Reflect.get(other, name) : undefined),
    ]),
  )
}

/** A reading as the screen shows it has the decimal sign of the language. */
const withPoint = (text: string): string => text.replace(/^(\d+),(\d+ \S+)$/, '$1.$2')

/** The same for the marked answer: its sentences go, all else stays. */
const withoutSaid = (value: unknown): unknown => {
  if (typeof value === 'string') return value.includes('⟦') ? undefined : withPoint(value)
  if (Array.isArray(value)) return value.map(withoutSaid)
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(Object.entries(value).map(([name, one]) => [name, withoutSaid(one)]))
}

describe('with every sentence said otherwise', () => {
  let english: CommandLine
  let marked: CommandLine
  beforeAll(async () => {
    english = await commandLineIn('en', {})
    marked = await commandLineIn('de', everythingMarked())
  })

  test.each(VERBS)('%s %s answers the same', async (...words) => {
    const otherwise = await marked(words)
    expect(withoutSaid(otherwise)).toEqual(computed(await english(words), otherwise))
  })

  test('edges, sides, controllers and patches go by names that are the same in it', async () => {
    const names = new Set<string>()
    for (const card of ['wept-fitting', 'slipped-tool', 'tired-rows']) {
      const answer = JSON.stringify(await marked(['suspects', `demo-data/${card}.case.json`, '--checks']))
      for (const [, at = ''] of answer.matchAll(
        /"(?:kind":"(?:core|core-patch|die)|check":"edge-look)","at":"([^"]*)"/g,
      ))
        names.add(at)
    }
    expect([...names]).toEqual(
      expect.arrayContaining([
        'the south edge of U13',
        'the controller of channel CH7 in U1',
        'the controllers of channels CH0 and CH5 in U1',
        'the south-east of U1',
      ]),
    )
    expect([...names].filter((name) => name.includes('⟦'))).toEqual([])
  })

  test('and are said in it', async () => {
    const answer = JSON.stringify(await marked(['suspects', DEMO, '--checks']))
    expect(answer).toContain('⟦the ⟦south⟧ edge of U13⟧')
    expect(answer).toContain('⟦the controllers of channels CH7 and CH5 in U1⟧ are bad')
  })

  test('and says its sentences in it', async () => {
    expect(JSON.stringify(await marked(['power', DEMO]))).toContain('⟦')
    expect(JSON.stringify(await english(['power', DEMO]))).not.toContain('⟦')
  })
})
