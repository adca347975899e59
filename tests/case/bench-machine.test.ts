/** What is said of link, outputs, temperatures, firmware and soak tests, and what of it the suspects weigh. */
import { describe, expect, it } from 'vitest'
import {
  benchMachineSchema,
  createAssessor,
  enteredOf,
  hostAnswer,
  type Look,
  lookSchema,
  machineRemarks,
  recordHtml,
  recordOf,
} from '../../src/case/index.ts'
import { checkById } from '../../src/suspects/index.ts'
import { openFull } from '../support/recordCase.ts'

type Powered = Parameters<typeof machineRemarks>[0]['powered']
const notTried: Powered = {
  enumerates: 'unknown',
  picture: 'unknown',
  otherOutput: 'unknown',
  state: 'unknown',
  atLimit: 'unknown',
  note: '',
}
const look = (draft: Parameters<typeof lookSchema.parse>[0]): Look => lookSchema.parse(draft)
const before = (draft: object) =>
  machineRemarks({ powered: notTried, benchMachine: { before: look(draft), soaks: [] } }, 'before', false)
const factsOf = (remarks: readonly { readonly fact: string }[]): string[] => remarks.map(({ fact }) => fact)

describe('the link', () => {
  it('of fewer lanes than slot and card offer is told, and weighs nothing', () => {
    const [remark] = before({ link: { lanes: 8, offeredLanes: 16 } })
    expect(remark).toMatchObject({ fact: 'Link ×8 of ×16.', kind: 'not-modelled' })
    expect(remark?.source).toContain('PCI Express')
  })

  it('of all lanes and at full rate is as usual', () => {
    expect(before({ link: { lanes: 16, offeredLanes: 16, rate: 16, offeredRate: 16, readAt: 'load' } })).toEqual([])
  })

  it('that is slow is read again under load before anything is made of it', () => {
    const slow = { rate: 2.5, offeredRate: 16 }
    expect(before({ link: { ...slow, readAt: 'idle' } })).toMatchObject([{ kind: 'habit' }])
    expect(before({ link: { ...slow, readAt: 'load' } })).toMatchObject([{ kind: 'not-modelled' }])
  })

  it('takes the widths and rates of the standard and no others', () => {
    expect(lookSchema.safeParse({ link: { lanes: 16, rate: 32 } }).success).toBe(true)
    expect(lookSchema.safeParse({ link: { lanes: 5 } }).success).toBe(false)
    expect(lookSchema.safeParse({ link: { rate: 10 } }).success).toBe(false)
  })
})

describe('temperatures', () => {
  it('of the hot spot up to 20 K over the core are usual, and beyond warn (common practice, no source)', () => {
    expect(before({ temperatures: { coreC: 62, hotSpotC: 82 } })).toEqual([])
    expect(factsOf(before({ temperatures: { coreC: 62, hotSpotC: 83 } }))).toEqual([
      'Hot spot 21 K over the core; up to 20 K is usual.',
    ])
  })

  it('of a hot spot under the core are taken for a misreading', () => {
    expect(factsOf(before({ temperatures: { coreC: 70, hotSpotC: 60 } }))).toEqual(['Hot spot under the core.'])
  })

  it('of packages name the one that stands out from the coolest', () => {
    const packages = [
      { ref: 'U2', celsius: 71 },
      { ref: 'U3', celsius: 88 },
      { ref: 'U4', celsius: 74 },
    ]
    expect(factsOf(before({ temperatures: { packages } }))).toEqual(['U3 17 K over U2; up to 15 K is usual.'])
  })

  it('after the work are held against those before as a rise over the air: 90 - 24 against 80 - 20 is 6 K worse', () => {
    const compared = (loadW: number) =>
      factsOf(
        machineRemarks(
          {
            powered: notTried,
            benchMachine: {
              before: look({ temperatures: { airC: 20, hotSpotC: 80, loadW: 200 } }),
              after: look({ temperatures: { airC: 24, hotSpotC: 90, loadW } }),
              soaks: [],
            },
          },
          'after',
          true,
        ),
      )
    expect(compared(205)).toEqual(['Hot spot 6 K hotter over the air than before, at the same load.'])
    expect(compared(120)).toEqual(['Before and after were read at different loads, or it was not noted.'])
  })
})

describe('display outputs, firmware and soak tests', () => {
  it('tell one dead output beside a good one from none that is well', () => {
    const outputs = [
      { name: 'DP 1', picture: 'yes' },
      { name: 'DP 2', picture: 'no' },
    ]
    expect(factsOf(before({ outputs }))).toEqual(['No steady picture at DP 2; DP 1 well.'])
    expect(before({ outputs: outputs.slice(1) })[0]?.means).toContain('No output is well')
  })

  it('say that firmware was written without a copy', () => {
    const written = (saved: 'yes' | 'no') =>
      machineRemarks(
        { powered: notTried, benchMachine: { firmware: { saved, where: '', written: 'yes' }, soaks: [] } },
        'before',
        false,
      )
    expect(written('yes')).toEqual([])
    expect(factsOf(written('no'))).toEqual(['Firmware written, and no copy of the old one is noted.'])
  })

  it('call a soak short or failed, and a long one that held as usual', () => {
    const soaked = (hours: number, outcome: 'held' | 'errors') =>
      factsOf(
        machineRemarks(
          { powered: notTried, benchMachine: { soaks: [{ load: 'full load', hours, outcome }] } },
          'after',
          true,
        ),
      )
    expect(soaked(3, 'held')).toEqual([])
    expect(soaked(0.5, 'held')).toEqual(['Longest soak 0.5 h; 2 h at a stretch are usual.'])
    expect(soaked(3, 'errors')).toEqual(['1 of 1 soak tests did not hold.'])
  })
})

describe('a card that the PC does not detect', () => {
  it('weighs on the core and its supplies while no memory test tells, and is an answer to a check that is not proposed', async () => {
    const { model } = await openFull()
    const core = model.core?.ref ?? ''
    expect(hostAnswer(model, 'no', false)).toEqual([{ check: 'host-detects', at: core, found: true, run: 0 }])
    expect(hostAnswer(model, 'no', true)).toEqual([])
    expect(hostAnswer(model, 'unknown', false)).toEqual([])
    expect(checkById('host-detects')?.proposed).toBe(false)
  })

  it('makes the core likelier than a card that is detected, and never sure', async () => {
    const opened = await openFull((plain) => ({ ...plain, reports: [], passes: [], marks: [], measurements: [] }))
    const assessor = createAssessor(opened.model)
    const core = opened.model.core?.ref
    const chanceOfCore = (enumerates: Powered['enumerates']): number => {
      const caseFile = { ...opened.caseFile, powered: { ...opened.caseFile.powered, enumerates } }
      const entered = enteredOf({ ...opened, caseFile, tally: undefined, retest: undefined, earlier: [] })
      return assessor.assess(entered).suspects.parts.find(({ ref }) => ref === core)?.probability ?? 0
    }
    const [silent, untried, detected] = [chanceOfCore('no'), chanceOfCore('unknown'), chanceOfCore('yes')]
    expect(silent).toBeGreaterThan(untried)
    expect(untried).toBeGreaterThan(detected)
    expect(silent).toBeLessThan(0.5)
  })

  it('says so as something that comes and goes where a test ran all the same', () => {
    const said = machineRemarks({ powered: { ...notTried, enumerates: 'no' } }, 'before', true)
    expect(said).toMatchObject([{ about: 'detected', kind: 'not-modelled' }])
    expect(machineRemarks({ powered: { ...notTried, enumerates: 'no' } }, 'before', false)).toMatchObject([
      { kind: 'weighed' },
    ])
  })
})

describe('the case file and the record', () => {
  it('take a case without any of it, and keep what was entered', async () => {
    const bare = await openFull()
    expect(bare.caseFile.benchMachine).toBeUndefined()
    expect(benchMachineSchema.parse({})).toEqual({ soaks: [] })
  })

  it('tell both looks, cooler, firmware and soak in the technician’s record, each figure with its unit', async () => {
    const opened = await openFull((plain) => ({
      ...plain,
      benchMachine: {
        before: {
          link: { lanes: 8, offeredLanes: 16, rate: 8, offeredRate: 16, readAt: 'load' },
          errorWords: 'no such device, bus reset',
          outputs: [{ name: 'DP 1', picture: 'no' }],
          temperatures: { airC: 22, coreC: 61, hotSpotC: 93, loadW: 180, minutes: 15 },
        },
        after: {
          cooler: {
            paste: 'new',
            pads: [{ where: 'memory', thicknessMm: 1.5, state: 'new' }],
            clampOrder: 'crosswise',
          },
        },
        firmware: { saved: 'yes', where: 'card 12, two equal copies', written: 'no' },
        soaks: [{ load: 'full load', hours: 4, airC: 23, hottestC: 88, outcome: 'held' }],
      },
    }))
    const words = recordHtml(recordOf({ ...opened, audience: 'technician', today: '2026-03-20' }))
      .replace(/<[^>]*>/g, ' ')
      .replace(/[\s\u00a0]+/g, ' ')
    for (const told of [
      '×8 of ×16, 8 of 16 GT/s, read under load',
      'no such device, bus reset',
      '180 W, after 15 min, air 22 °C',
      'memory: 1.5 mm, new',
      'crosswise',
      'card 12, two equal copies',
      'held, no error',
      'Hot spot 32 K over the core; up to 20 K is usual.',
    ])
      expect(words).toContain(told)
  })

  it('tell the owner how long the card ran under load, and whether it held', async () => {
    const wordsOf = async (outcome: 'held' | 'broke off'): Promise<string> => {
      const soaks = [
        { load: 'full load', hours: 3, outcome: 'held' },
        { load: 'full load, warm', hours: 1.5, outcome },
      ]
      const opened = await openFull((plain) => ({ ...plain, benchMachine: { soaks } }))
      return recordHtml(recordOf({ ...opened, audience: 'owner', today: '2026-03-20' })).replace(/<[^>]*>/g, ' ')
    }
    expect(await wordsOf('held')).toMatch(/under load for 4\.5\s+hours\. It held/)
    expect(await wordsOf('broke off')).toMatch(/It did not hold each time/)
  })
})
