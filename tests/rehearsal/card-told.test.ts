/** What somebody at the bench is told of a card as it comes, and of its truth in the end: whole sentences of cards by hand. */
import { describe, expect, it } from 'vitest'
import type { SlipMark, SpillMark } from '../../src/spill/index.ts'
import type { Damage, TrueCause } from '../../src/rehearsal/index.ts'
import { damage, reading, spillCause, spillMark } from './hand-card.ts'
import { endOf, REPAIRED, viewOf } from './practice-support.ts'

const slip: SlipMark = { kind: 'slip', id: 's1', side: 'bottom', at: { x: 25, y: 40 }, radiusMm: 1.25 }

describe('the owner’s account', () => {
  const account = async (seen: NonNullable<Parameters<typeof viewOf>[0]['seen']>) => (await viewOf({ seen })).account

  it('is one sentence where nothing is on the map', async () => {
    expect(await account({ told: 'unknown' })).toEqual(['The owner says nothing about how it came about.'])
    expect(await account({ told: 'no-accident' })).toEqual(['The owner says that nothing happened to it.'])
    expect(await account({ told: 'accident' })).toEqual(['The owner says that something happened, and not what.'])
  })

  const WHERE = 'got onto it near U1 on the top side (20, 20), give or take 2 mm.'
  it.each<[string, Partial<SpillMark>, string]>([
    ['its substance, amount and place', {}, `Water, about 1.0 ml, ${WHERE}`],
    [
      'how much was smeared',
      { substance: 'gallium-indium-tin', amount: { smearCm2: 2.345 } },
      `Liquid metal, about 2.3 cm², ${WHERE}`,
    ],
    ['a substance that nobody knows by its word', { substance: 'oil' }, `oil, about 1.0 ml, ${WHERE}`],
    [
      'that a cooler was pressed on it',
      { pressed: 'yes' },
      `Water, about 1.0 ml, ${WHERE} A cooler was pressed on it.`,
    ],
    [
      'and how far',
      { pressed: 'yes', pushMm: 2.5 },
      `Water, about 1.0 ml, ${WHERE} A cooler was pressed on it and pushed it 2.5 mm.`,
    ],
    ['that none was', { pressed: 'no', pushMm: 2.5 }, `Water, about 1.0 ml, ${WHERE} No cooler was pressed on it.`],
    // degrees run counter-clockwise from the right
    ['right down', { downDeg: 0 }, `Water, about 1.0 ml, ${WHERE} The card stood on edge: the right edge was down.`],
    ['top down', { downDeg: 90 }, `Water, about 1.0 ml, ${WHERE} The card stood on edge: the upper edge was down.`],
    ['left down', { downDeg: 180 }, `Water, about 1.0 ml, ${WHERE} The card stood on edge: the left edge was down.`],
    ['foot down', { downDeg: 270 }, `Water, about 1.0 ml, ${WHERE} The card stood on edge: the lower edge was down.`],
    [
      'foot down, turned back',
      { downDeg: -90 },
      `Water, about 1.0 ml, ${WHERE} The card stood on edge: the lower edge was down.`,
    ],
    [
      'nearly right down',
      { downDeg: 350 },
      `Water, about 1.0 ml, ${WHERE} The card stood on edge: the right edge was down.`,
    ],
    [
      'the part on which it came',
      { at: { x: 95, y: 40 } },
      'Water, about 1.0 ml, got onto it at U2 on the top side (95, 40), give or take 2 mm.',
    ],
    // U1 ends 7.5 to the left and 5.5 below, U2 begins 6 to the right and 14 below
    [
      'the part that is nearest',
      { at: { x: 82, y: 60 } },
      'Water, about 1.0 ml, got onto it near U1 on the top side (82, 60), give or take 2 mm.',
    ],
    [
      'of that side alone',
      { side: 'bottom', at: { x: 90, y: 40 } },
      'Water, about 1.0 ml, got onto it near U3 on the bottom side (90, 40), give or take 2 mm.',
    ],
  ])('of a spill tells %s', async (_, mark, words) => {
    expect(await account({ told: 'accident', spills: [spillMark(mark)] })).toEqual([words])
  })

  it('of a slip tells width and place, and what was looked at before', async () => {
    const at = { x: 0, y: 0 }
    const look = (side: string, kind: 'residue' | 'clean') =>
      ({ kind, id: `look-U1-${side}`, side: 'top', at, radiusMm: 1.5 }) as const
    const areas = [
      look('south', 'residue'),
      look('east', 'clean'),
      look('north', 'clean'),
      { ...look('nowhere', 'clean') },
    ]
    expect(await account({ told: 'accident', slips: [slip], areas })).toEqual([
      'A scratch of about 2.5 mm was found at U3 on the bottom side (25, 40): a tool slipped.',
      'Residue was seen at the south edge of U1.',
      'Looked at and clean: the east edge of U1 and the north edge of U1.',
    ])
  })
})

describe('what was measured before', () => {
  it('is told line by line with what it is held to be', async () => {
    const seen = { measurements: [reading('VMEM', 60), reading('S1', 9000, 'stage')] }
    expect((await viewOf({ seen })).measuredBefore).toEqual([
      'Rail VMEM: 60 Ω, in range.',
      'Stage S1: 9 kΩ, no reference.',
    ])
    expect((await viewOf({ seen: { measurements: [reading('VMEM', 0.2)] } })).measuredBefore).toEqual([
      'Rail VMEM: 200 mΩ, short.',
    ])
  })
})

describe('the report on the table', () => {
  const table = (...rows: { lane: string; errors: number }[]) =>
    ({ kind: 'table', layout: 'table by hand', rows }) as const

  it('is shown row by row, with what was read out of it', async () => {
    const report = table({ lane: 'U2.A0', errors: 3 }, { lane: 'U2.A1', errors: 0 }, { lane: 'U3.A0', errors: 0 })
    const { report: seen, tallyParts } = await viewOf({ seen: { report } })
    expect(seen).toMatchObject({ layout: 'table by hand', text: 'U2.A0  3\nU2.A1  0\nU3.A0  0', cut: 0 })
    const [named] = tallyParts.filter(({ ref }) => ref === 'U2')
    expect(seen.read).toEqual([named?.signature.sentence, 'No errors at the other 1.'])
  })

  it('says where nothing fails, and of what it says nothing', async () => {
    const { report } = await viewOf({ seen: { report: table({ lane: 'U2.A0', errors: 0 }) } })
    expect(report.read).toEqual(['No lane fails in this run.', 'The report says nothing about U3.'])
  })

  it('is cut after 20,000 characters, and says how many it cut', async () => {
    // 8 characters and a line break each, but for the last: 2,500 · 9 − 1
    const report = table(...Array.from({ length: 2500 }, () => ({ lane: 'U2.A0', errors: 3 })))
    const { report: seen } = await viewOf({ seen: { report } })
    expect([seen.text.length, seen.cut]).toEqual([20_000, 2499])
  })
})

describe('the truth in the end', () => {
  const truth = async (by: Parameters<typeof endOf>[0]) => (await endOf(by, [REPAIRED])).truth
  const happened = async (cause: TrueCause) => (await truth({ causes: [cause] })).happened

  it.each<[TrueCause, string]>([
    [{ kind: 'die', at: 'U2' }, 'The die of U2 was bad.'],
    [{ kind: 'joints', at: 'U2/A0' }, 'Joints under U2 at A0 were bad.'],
    [{ kind: 'joints', at: 'somewhere' }, 'Joints under somewhere were bad.'],
    [{ kind: 'command-joints', at: 'U2/CK' }, 'Command joints under U2 at CK were bad.'],
    [{ kind: 'core-patch', at: 'U1' }, 'Joints under a patch of the core were bad.'],
    [{ kind: 'core-controller', at: 'U1' }, 'One memory controller in the core was bad.'],
    [{ kind: 'core-side', at: 'U1' }, 'One side of the core was bad.'],
    [{ kind: 'core-whole', at: 'U1' }, 'The core was bad as a whole.'],
    [{ kind: 'rail', at: 'rail VMEM', severity: 0.39 }, 'Rail VMEM was a little off.'],
    [{ kind: 'rail', at: 'rail VMEM', severity: 0.4 }, 'Rail VMEM was clearly off.'],
    [{ kind: 'rail', at: 'rail VMEM', severity: 0.75 }, 'Rail VMEM was badly off.'],
    [{ kind: 'rail', at: 'rail VMEM' }, 'Rail VMEM was a little off.'],
    [
      { kind: 'rail-branch', at: 'branch east of rail VMEM', severity: 0.74 },
      'Branch east of rail VMEM was clearly off.',
    ],
    [{ kind: 'power-stage', at: 'S1', severity: 0.9 }, 'Power stage S1 was badly off.'],
    [{ kind: 'power-stage', at: 'S1', severity: 0.5 }, 'Power stage S1 was clearly off.'],
    [{ kind: 'power-stage', at: 'S1', severity: 0.2 }, 'Power stage S1 was a little off.'],
    [{ kind: 'slip', at: 'slip' }, 'A tool slipped.'],
    [
      { kind: 'slip', at: 'slip', slip: { at: { x: 25, y: 40 }, side: 'bottom', radiusMm: 2 } },
      'A tool slipped at U3 on the bottom side (25, 40).',
    ],
    [{ kind: 'wet-spill', at: 'water' }, 'Something was spilled.'],
    [{ kind: 'pasty-spill', at: 'flux-dried' }, 'Something was smeared on it.'],
    [{ kind: 'nothing', at: '' }, 'Nothing was wrong with this card that the test shows.'],
    [spillCause({ volumeMl: 0.234 }), 'Water, 0.23 ml, got onto the board near U1 on the top side (20, 20).'],
    [spillCause({}, 'nothing'), 'Water, 1.0 ml, got onto the board near U1 on the top side (20, 20). It did no harm.'],
    [
      spillCause({ substance: 'cooling-compound', smear: { areaCm2: 3.21, pushMm: 1 } }, 'pasty-spill'),
      'Conductive paste, 3.2 cm², got onto the board near U1 on the top side (20, 20).',
    ],
    [spillCause({ substance: 'tea' }), 'tea, 1.0 ml, got onto the board near U1 on the top side (20, 20).'],
  ])('says what happened: %o', async (cause, words) => {
    expect(await happened(cause)).toEqual([words])
  })

  const bad = async (...damages: Damage[]) => (await truth({ damages })).bad
  it.each<[Damage['kind'], string]>([
    ['die', 'its die'],
    ['joints', 'its joints'],
    ['command-joints', 'its command joints'],
    ['corridor', 'a track'],
    ['rail', 'a rail'],
    ['rail-branch', 'a branch of a rail'],
    ['power-stage', 'the stage itself'],
    ['core', 'the core itself'],
    ['core-patch', 'joints under it'],
    ['spill', 'what was spilled under it'],
    ['unreported-spill', 'what was spilled under it'],
    ['slip', 'what the tool hit'],
  ])('says of a part what was wrong with it: %s', async (kind, words) => {
    expect(await bad(damage({ kind }))).toEqual([{ ref: 'U2', words: `${words}; 1 lane spoiled` }])
  })

  it('gathers what was wrong at a part, where, and how many lanes it spoiled', async () => {
    const lane = (name: string) => ({ lane: name, bits: 255, reads: 'high', perRead: 1 }) as const
    const spilled = (at: string, ...lanes: string[]) => damage({ kind: 'spill', at, lanes: lanes.map(lane) })
    expect(
      await bad(spilled('U2/A0', 'U2.A0'), spilled('U2/CA-A', 'U2.A0', 'U2.A1'), damage({ at: 'U3', ref: 'U3' })),
    ).toEqual([
      { ref: 'U2', words: 'what was spilled under it at A0 and CA-A; 2 lanes spoiled' },
      { ref: 'U3', words: 'its die; 1 lane spoiled' },
    ])
    const lines = [{ kind: 'stage', name: 'S1', severity: 1 }] as const
    expect(await bad(damage({ kind: 'power-stage', at: 'S1', ref: 'S1', lanes: [], lines }))).toEqual([
      { ref: 'S1', words: 'the stage itself' },
    ])
  })

  it('names once what is mended in place, and nothing that shows nowhere', async () => {
    const beside = (kind: Damage['kind'], at: string, change: Partial<Damage> = {}) =>
      damage({ kind, at, ref: undefined, ...change })
    const damages = [
      beside('rail', 'rail VMEM'),
      beside('rail-branch', 'branch east of rail VMEM'),
      beside('corridor', 'U2.A0'),
      beside('slip', 'U2.A0'),
      beside('slip', 'S1'),
      beside('slip', 'something else'),
      beside('slip', 'U3.A0', { lanes: [] }),
    ]
    expect((await truth({ damages })).inPlace).toEqual([
      'Rail VMEM',
      'Branch east of rail VMEM',
      'The track of lane U2.A0',
      'Small part S1',
      'Something else',
    ])
  })

  it('notes where it happened, and tells which parts were only reached', async () => {
    const slipped = { kind: 'slip', at: 'slip', slip: { at: { x: 1, y: 2 }, side: 'bottom', radiusMm: 2 } } as const
    const causes = [
      { kind: 'die', at: 'U2' } as const,
      spillCause({ regions: ['U2/A0', 'U3/A0', 'U3/B0', 'none'] }),
      slipped,
    ]
    const told = await truth({ causes, damages: [damage({})] })
    expect(told.onlyReached).toEqual(['U3'])
    expect(told.places).toEqual([
      { kind: 'note', id: 'truth-2', side: 'top', at: { x: 20, y: 20 }, text: 'Water, really here' },
      { kind: 'note', id: 'truth-3', side: 'bottom', at: { x: 1, y: 2 }, text: 'the tool slipped here' },
    ])
  })
})
