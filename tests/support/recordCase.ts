/** A case in which every field holds something, for tests of the record. Invented; nothing in it is a result. */
import {
  CASE_VERSION,
  type Assessment,
  type Case,
  codeFor,
  enteredOf,
  loadCase,
  type OpenedCase,
  openCase,
  proofOf,
} from '../../src/case/index.ts'
import { assessorFor } from './kept-answers.ts'
import { smallBoard } from './small-board.ts'

const lanes = ['U2.A0', 'U2.A1', 'U2.B0', 'U2.B1', 'U3.A0', 'U3.A1', 'U3.B0', 'U3.B1']

const report = (errors: Readonly<Record<string, number>>): string =>
  `lane,errors\n${lanes.map((lane) => `${lane},${errors[lane] ?? 0}`).join('\n')}\n`

/** Plain, as it would stand in a file. */
export const fullCase = () => ({
  format: 'liftmap-case',
  version: CASE_VERSION,
  title: 'Every field filled in',
  card: 'K-0731',
  board: { inline: smallBoard() },
  arrival: {
    on: '2026-03-14',
    owner: 'a reading room by the harbour',
    seen: 'Fans turn, screen stays grey',
    accident: 'spill',
    account: 'A hose came loose over night.',
    mounted: 'upright',
    poweredSince: 'no',
  },
  intake: {
    code: codeFor('every field filled in'),
    model: 'Harbour Twelve',
    serial: 'HT-550-1207',
    seals: 'broken',
    sealsNote: 'the screw beside the bracket',
    cameWith: 'bracket and two screws',
    earlierRepairs: 'a fan was renewed in another shop',
    phone: '0555 019 019',
    mail: 'room@harbour.example',
    diagnosisFee: 34.5,
    due: '2026-03-28',
    consents: { diagnosis: '2026-03-14', heat: '2026-03-17' },
  },
  measurements: [
    {
      line: { kind: 'rail', name: 'VMEM' },
      quantity: 'ohms',
      reading: { kind: 'value', value: 17.25 },
      typed: '17R25',
      meter: 'BENCH-6',
      at: '2026-03-14T10:05:00Z',
    },
    {
      line: { kind: 'rail', name: 'VMEM' },
      quantity: 'ohms',
      phase: 'after',
      reading: { kind: 'value', value: 53.5 },
      typed: '53,5',
    },
    {
      line: { kind: 'rail', name: 'VMEM' },
      quantity: 'volts',
      phase: 'after',
      reading: { kind: 'value', value: 1.347 },
      typed: '1.347',
    },
    { line: { kind: 'stage', name: 'S1' }, quantity: 'ohms', reading: { kind: 'short' }, typed: 'short!' },
    { line: { kind: 'rail', name: 'VAUX' }, quantity: 'ohms', reading: { kind: 'open' }, typed: 'O.L' },
  ],
  shorts: [
    {
      id: 'hunt-1',
      rail: 'VMEM',
      side: 'top',
      currentA: 1.75,
      sourceAt: { x: 61.25, y: 69.5 },
      readings: [{ at: { x: 72.5, y: 41.75 }, millivolt: 3.125 }],
      noiseMillivolt: 0.033,
      sheetMilliohm: 0.485,
    },
  ],
  powerUps: [
    {
      at: '2026-03-15T11:20:00Z',
      verdict: 'not-safe',
      reasons: ['VMEM reads 17 ohm, under its range.'],
      against: 'Limited supply at 200 mA, to find the warm spot.',
    },
  ],
  powered: {
    enumerates: 'yes',
    picture: 'disturbed',
    otherOutput: 'no',
    inputCurrentA: 0.415,
    note: 'Stripes on the left half.',
  },
  goodReadings: [{ line: { kind: 'rail', name: 'VMEM' }, quantity: 'ohms', values: [61.5, 64.25] }],
  photos: [
    {
      id: 'photo-1',
      name: 'before-top.jpg',
      type: 'image/jpeg',
      bytes: 4711,
      widthPx: 4031,
      heightPx: 3023,
      side: 'top',
      note: 'flash from the left',
    },
  ],
  checks: [{ check: 'look-under-part', at: 'U2', found: true, note: 'green crust', on: '2026-03-15T09:00:00Z' }],
  proofNote: 'Forty passes at 71 degrees.',
  cleaned: { at: '2026-03-16T15:20:00Z', marks: [], note: 'rinsed with deionised water, nine hours at 60 °C' },
  handBack: {
    on: '2026-03-19',
    outcome: 'repaired',
    done: 'Both packages lifted, pads cleaned.',
    minutes: 187,
    usedParts: [
      { what: 'memory package, same marking', count: 2, price: 17.35 },
      { what: 'thermal pads', count: 1, price: 6.4 },
    ],
    charged: 231.9,
    currency: 'EUR',
    advice: 'Have the hose replaced before it goes back in.',
  },
  reports: [
    { name: 'bench run one', text: report({ 'U2.A0': 1234, 'U2.A1': 871 }), testPasses: 3 },
    { name: 'bench run two', text: report({}), run: 'retest', testPasses: 40, coversAll: true },
  ],
  marks: [
    {
      kind: 'spill',
      id: 'spill-1',
      side: 'top',
      at: { x: 81.25, y: 47.5 },
      sdMm: 3.75,
      substance: 'coolant-pg',
      amount: { volumeMl: 0.65 },
      amountSdLog: 0.5,
      downDeg: 271,
    },
    { kind: 'residue', id: 'residue-1', side: 'top', at: { x: 83.5, y: 44.25 }, radiusMm: 2.25, note: 'sticky ring' },
    {
      kind: 'dam',
      id: 'dam-1',
      side: 'bottom',
      path: [
        { x: 31.5, y: 20.25 },
        { x: 32.75, y: 22.5 },
      ],
    },
    {
      kind: 'slip',
      id: 'slip-1',
      side: 'top',
      at: { x: 41.5, y: 12.75 },
      radiusMm: 1.125,
      note: 'scratch by a driver',
    },
    { kind: 'note', id: 'note-1', side: 'top', at: { x: 11.5, y: 71.25 }, text: 'screw missing here' },
  ],
  substances: [],
  equipment: {
    preheater: { minC: 52, maxC: 301, widthMm: 255, lengthMm: 176 },
    hotAir: { minC: 103, maxC: 437 },
    nozzles: [{ name: 'square nineteen', shape: 'square', sizeMm: 19.5 }],
  },
  shop: { money: { hourlyRate: 73 } },
  passes: [
    {
      action: 'lift',
      refs: ['U2'],
      outcome: 'done',
      peakC: 236.5,
      measured: [{ ref: 'S1', peakC: 151.5 }],
      found: [{ ref: 'U2', what: ['corroded'] }],
      note: 'came off clean',
    },
    { action: 'refit', refs: ['U2'], outcome: 'done', peakC: 234.5, replaced: true },
    { action: 'lift', refs: ['U3'], outcome: 'skipped', note: 'owner wants no more heat' },
  ],
  floorLife: [{ ref: 'U2', state: 'over by at most 72 h' }],
  shields: [{ target: 'U2', ref: 'S1', kind: 'tape' }],
  assumptions: { cost: { minutesPerCoreLift: 321 } },
})

export interface RecordedCase extends OpenedCase {
  readonly assessment: Assessment
  readonly proof: ReturnType<typeof proofOf>
}

/** @param change made to the plain case before it is read */
export async function openFull(
  change: (plain: ReturnType<typeof fullCase>) => unknown = (plain) => plain,
): Promise<RecordedCase> {
  const caseFile = loadCase(change(fullCase()))
  if (!caseFile.ok) throw new Error(JSON.stringify(caseFile.faults))
  return await openedFrom(caseFile.value)
}

async function openedFrom(caseFile: Case): Promise<RecordedCase> {
  const opened = await openCase(caseFile, () => Promise.reject(new Error('the case carries all it needs')))
  if (!opened.ok) throw new Error(JSON.stringify(opened.faults))
  const assessment = assessorFor(opened.value.model).assess(enteredOf(opened.value))
  return { ...opened.value, assessment, proof: proofOf(opened.value) }
}
