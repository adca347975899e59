/** Usual figures of the bench machine from both sides: common practice, no source. */
import { describe, expect, test } from 'vitest'
import { type Look, lookSchema, machineRemarks } from '../../src/case/index.ts'

type Facts = Parameters<typeof machineRemarks>[0]
const powered: Facts['powered'] = {
  enumerates: 'unknown',
  picture: 'unknown',
  otherOutput: 'unknown',
  state: 'unknown',
  atLimit: 'unknown',
  note: '',
}
const look = (temperatures: object): Look => lookSchema.parse({ temperatures })
const said = (temperatures: object): string[] =>
  machineRemarks({ powered, benchMachine: { before: look(temperatures), soaks: [] } }, 'before', false).map(
    ({ fact }) => fact,
  )

describe('temperatures', () => {
  test.each<[object, readonly RegExp[]]>([
    [{ hotSpotC: 104.9 }, []],
    [{ hotSpotC: 105 }, [/Hot spot at 105 °C/]],
    [{ memoryC: 99.9 }, []],
    [{ memoryC: 100 }, [/Memory at 100 °C/]],
    [{ coreC: 60, hotSpotC: 80 }, []],
    [{ coreC: 60, hotSpotC: 80.1 }, [/20\.1 K over the core/]],
    [{ coreC: 60, hotSpotC: 60 }, []],
    [
      {
        packages: [
          { ref: 'U2', celsius: 60 },
          { ref: 'U3', celsius: 75 },
        ],
      },
      [],
    ],
    [
      {
        packages: [
          { ref: 'U2', celsius: 60 },
          { ref: 'U3', celsius: 75.1 },
        ],
      },
      [/U3 15\.1 K over U2/],
    ],
    // the hottest of all that was told, one by one or as one figure
    [
      {
        memoryC: 90,
        packages: [
          { ref: 'U2', celsius: 101 },
          { ref: 'U3', celsius: 95 },
        ],
      },
      [/Memory at 101 °C/],
    ],
    [{ memoryC: 102, packages: [{ ref: 'U2', celsius: 95 }] }, [/Memory at 102 °C/]],
  ])('%j: %j', (temperatures, expected) => {
    const facts = said(temperatures)
    expect(facts).toHaveLength(expected.length)
    for (const [i, words] of expected.entries()) expect(facts[i]).toMatch(words)
  })
})

describe('after the work', () => {
  const compared = (before: object, after: object): string[] =>
    machineRemarks(
      { powered, benchMachine: { before: look(before), after: look(after), soaks: [] } },
      'after',
      true,
    ).map(({ fact }) => fact)
  const was = { airC: 20, coreC: 60, loadW: 200 }

  test('up to 5 K more over the air is scatter', () => {
    expect(compared(was, { airC: 22, coreC: 67, loadW: 200 })).toEqual([])
    expect(compared(was, { airC: 22, coreC: 67.1, loadW: 200 })).toHaveLength(1)
  })
  test('loads within a tenth of the greater compare: 180 W beside 200 W, 222 W beside 200 W', () => {
    const at = (loadW: number) => compared(was, { airC: 20, coreC: 90, loadW })
    for (const loadW of [180, 200, 222]) expect(at(loadW)[0]).toMatch(/30 K hotter/)
    for (const loadW of [179, 223]) expect(at(loadW)[0]).toMatch(/different loads/)
  })
  test('without air or load nothing is compared', () => {
    expect(compared({ coreC: 60, loadW: 200 }, { airC: 20, coreC: 90, loadW: 200 })).toEqual([])
    expect(compared({ airC: 20, coreC: 60 }, { airC: 20, coreC: 90 })[0]).toMatch(
      /different loads, or it was not noted/,
    )
  })
  test('two hours at a stretch are a soak', () => {
    const soaked = (hours: number): string[] =>
      machineRemarks(
        { powered, benchMachine: { soaks: [{ load: 'full load', hours, outcome: 'held' }] } },
        'after',
        true,
      ).map(({ fact }) => fact)
    expect([soaked(2), soaked(1.9)]).toEqual([[], ['Longest soak 1.9 h; 2 h at a stretch are usual.']])
  })
})
