/** What a ball or pad of the board carries, and what its loss means. */
import { distance, numberWords, type Point, polygonContains, say } from '../../base/index.ts'
import type { BoardModel, PlacedPad, PlacedPart } from '../../board/index.ts'
import type { PadRepair } from '../pad-repairs.ts'

export interface PadMeaning {
  readonly carries: 'ground' | 'supply' | 'data' | 'control' | 'not connected' | 'unknown'
  /** As the bench says it: `ground`, `U3.A0 DQ5`, `rail VMEM`. */
  readonly name: string
  /** What its loss means, with `common practice, no source` where it is a rule of the trade. */
  readonly means: string
  /** Whether it may stay as it is; undefined where the ball map does not tell. */
  readonly mayStay: boolean | undefined
}

const CP = say(' (Common practice, no source.)')

const MEANS: Readonly<
  Record<PadMeaning['carries'], { readonly means: string; readonly mayStay: boolean | undefined }>
> = {
  ground: {
    means: say('One of many ground balls: it may be left while its neighbours hold.{source}', { source: CP }),
    mayStay: true,
  },
  supply: {
    means: say('One of many balls of its supply: one may be left; several side by side starve that corner.{source}', {
      source: CP,
    }),
    mayStay: true,
  },
  data: { means: say('Its bit fails without it: a jumper or a new pad, as short as can be.'), mayStay: false },
  control: { means: say('All that hangs on this line fails without it: a jumper or a new pad.'), mayStay: false },
  'not connected': { means: say('Nothing hangs on it: it may be left.'), mayStay: true },
  unknown: {
    means: say('The ball map does not tell: look it up, or measure it in diode mode first.'),
    mayStay: undefined,
  },
}

const GROUND = /^(?:[ADPS]?GND|VSS)/i
const SUPPLY = /^(?:VDD|VCC|VPP|VIN|VREF|VMEM|VCORE|\+?\d+V\d*)/i
const NOTHING = /^(?:NC|N\/C|DNU|RFU|NU)(?:\b|[_\d])/i
const DATA = /\bDQ\d/i
const CONTROL = /^(?:CA|CK|WCK|CS|RAS|CAS|WE|BA|A\d|ACT|ODT|CKE|RESET|EDC|DBI|DQS|DM|ZQ|MF|SEN|TMS|TCK|TDI|TDO)/i

/** @returns undefined where the part has no such ball or pad */
export function padMeaning(model: BoardModel, ref: string, pad: string): PadMeaning | undefined {
  const part = model.partByRef.get(ref)
  const found = part?.pads.find(({ number }) => number.toLowerCase() === pad.toLowerCase())
  if (part === undefined || found === undefined) return undefined
  const lane = laneBit(model, part, found.number)
  if (lane !== undefined) return meaning('data', lane)
  const named = [found.signal, found.net].find((name) => name !== undefined && name !== '')
  if (named !== undefined) {
    const carries = carriesBy(model, named)
    if (carries !== 'unknown') return meaning(carries, carries === 'ground' ? 'ground' : named)
  }
  return byRegion(model, part, found, named)
}

const meaning = (carries: PadMeaning['carries'], name: string): PadMeaning => ({ carries, name, ...MEANS[carries] })

/** `U3.A0 DQ5`, where the board ties that bit to the ball. */
function laneBit(model: BoardModel, part: PlacedPart, pad: string): string | undefined {
  for (const lane of model.lanes) {
    const balls = lane.part === part.ref ? lane.memoryBalls : part === model.core ? lane.coreBalls : []
    const bit = balls.indexOf(pad)
    if (bit >= 0) return `${lane.id} DQ${bit}`
  }
  return undefined
}

function carriesBy(model: BoardModel, name: string): PadMeaning['carries'] {
  if (NOTHING.test(name)) return 'not connected'
  if (GROUND.test(name)) return 'ground'
  if (SUPPLY.test(name) || model.rails.some((rail) => rail.name.toLowerCase() === name.toLowerCase())) return 'supply'
  if (DATA.test(name)) return 'data'
  return CONTROL.test(name) ? 'control' : 'unknown'
}

/** By the patch of the ball field that it lies in, where no name tells. */
function byRegion(model: BoardModel, part: PlacedPart, { at }: PlacedPad, named: string | undefined): PadMeaning {
  const region = model.regions.find((each) => each.part === part.ref && polygonContains(each.polygon, at))
  const name = named ?? say('not told')
  if (region === undefined || region.role === 'power') return meaning('unknown', name)
  const lines = region.role === 'lane' ? say('data, strobe') : say('command, clock')
  const means = say(
    'In the field of {name}: {lines}, supply or ground. Measure it in diode mode beside its neighbours.',
    { name: region.name, lines },
  )
  return { carries: 'unknown', name, means, mayStay: undefined }
}

/** Length of a drawn wire or track, mm. */
export const pathLengthMm = (path: readonly Point[]): number =>
  path.slice(1).reduce((sum, point, i) => sum + distance(path[i] ?? point, point), 0)

/** A wire of a data line longer than this is said to be long. Common practice, no source. */
const LONG_DATA_MM = 10

/** What is still open about a repair, in sentences; empty where nothing is. */
export function padRepairRemarks(model: BoardModel, repair: PadRepair): string[] {
  const { ref, pad, hurt, remedy, path, ohm, via } = repair
  const carried = pad === '' ? undefined : padMeaning(model, ref, pad)
  const lengthMm = pathLengthMm(path)
  const needsLine = carried?.mayStay === false || hurt === 'track cut'
  return [
    ...(hurt === 'ball lost' ? [say('The pad is sound: the next reballing gives it a new ball.')] : []),
    ...(remedy === 'none' && needsLine ? [say('Left as it is: what hangs on it fails.')] : []),
    ...((remedy === 'jumper' || remedy === 'track') && path.length < 2 ? [say('Its way is not drawn yet.')] : []),
    ...(remedy === 'jumper' && carried?.carries === 'data' && lengthMm > LONG_DATA_MM
      ? [
          say('{lengthMm} mm is long for a data line: under {mostMm} mm.{source}', {
            lengthMm: numberWords(lengthMm),
            mostMm: LONG_DATA_MM,
            source: CP,
          }),
        ]
      : []),
    ...(remedy !== 'none' && remedy !== 'not yet' && ohm === undefined
      ? [say('Not measured from end to end yet.')]
      : []),
    ...(via === 'drilled' ? [say('A drilled via joins no layer any more: see what else ran through it.')] : []),
  ]
}

/**
 * By part: how many of its torn pads and cut lines have to be mended. One that may stay, as most grounds may, counts nothing;
 * a ball that was lost comes back with the reballing.
 */
export function tornBallsOf(model: BoardModel, repairs: readonly PadRepair[]): Map<string, number> {
  const counts = new Map<string, number>()
  for (const { ref, pad, hurt } of repairs) {
    const mayStay = pad !== '' && padMeaning(model, ref, pad)?.mayStay === true
    const counted = hurt !== 'ball lost' && !mayStay ? 1 : 0
    counts.set(ref, (counts.get(ref) ?? 0) + counted)
  }
  return counts
}
