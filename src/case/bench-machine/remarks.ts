/** What of the bench machine's findings differs from usual, what it speaks for, and whether the suspects weigh it. */
import { joined, numberWords, say } from '../../base/index.ts'
import type { BenchPhase, Look, Temperatures } from '../bench-machine.ts'
import type { Case } from '../schema.ts'
import { machineFigures as usual } from './figures.ts'

export interface MachineRemark {
  readonly about: 'detected' | 'link' | 'outputs' | 'fans' | 'temperatures' | 'firmware' | 'soak'
  /** What was found, with its numbers. */
  readonly fact: string
  /** What it speaks for, or what to do. */
  readonly means: string
  /** `weighed`: the suspects count it. `not-modelled`: no cause of theirs explains it. `habit`: a rule of the trade. */
  readonly kind: 'weighed' | 'not-modelled' | 'habit'
  readonly source: string
}

const CP = say('common practice, no source')
const BUS = say('PCI-SIG, PCI Express Base Specification, revision 5.0, 2019, link training; from memory')

/** Stands wherever firmware may be read or written. */
export const FIRMWARE_CAUTION = say(
  'Before anything is written, read the firmware out twice, see that both copies are the same, and keep one off this machine. A write that breaks off leaves a dead card: steady power, right voltage of the chip, clip on with the card unplugged.',
)

export type MachineFacts = Pick<Case, 'benchMachine' | 'powered'>

/** Whether the host detects the card in that phase. */
const detectedIn = ({ benchMachine, powered }: MachineFacts, phase: BenchPhase): Look['detected'] =>
  phase === 'before' ? powered.enumerates : (benchMachine?.after?.detected ?? 'unknown')

/**
 * Everything that differs from usual, in the order of the form; empty where nothing was entered or all is usual.
 * @param ranTest a memory test ran in that phase: what it says of the card outweighs whether it was detected
 */
export function machineRemarks(facts: MachineFacts, phase: BenchPhase, ranTest: boolean): MachineRemark[] {
  const { benchMachine } = facts
  const look = benchMachine?.[phase]
  return [
    ...detectedRemarks(detectedIn(facts, phase), phase, ranTest),
    ...(look === undefined ? [] : [...linkRemarks(look), ...outputRemarks(look), ...fanRemarks(look)]),
    ...temperatureRemarks(look?.temperatures),
    ...(phase === 'after'
      ? [...worseRemarks(benchMachine?.before?.temperatures, look?.temperatures), ...soakRemarks(facts)]
      : firmwareRemarks(facts)),
  ]
}

function detectedRemarks(detected: Look['detected'], phase: BenchPhase, ranTest: boolean): MachineRemark[] {
  if (detected !== 'no') return []
  const fact = say('Not detected by the PC.')
  if (phase === 'after' && !ranTest) {
    const means = say(
      'Power off, and measure its rails cold: a bridge or an open joint of the work. Not weighed before a retest.',
    )
    return [{ about: 'detected', fact, means, kind: 'not-modelled', source: CP }]
  }
  return ranTest
    ? [
        {
          about: 'detected',
          fact,
          means: say(
            'But a memory test ran, so it comes and goes: slot, edge contacts, a joint that moves. Not weighed.',
          ),
          kind: 'not-modelled',
          source: CP,
        },
      ]
    : [
        {
          about: 'detected',
          fact,
          means: say('Speaks for a core without supply or dead. Try another slot and clean edge contacts first.'),
          kind: 'weighed',
          source: CP,
        },
      ]
}

function linkRemarks({ link }: Look): MachineRemark[] {
  if (link === undefined) return []
  const { lanes, offeredLanes, rate, offeredRate, readAt } = link
  const width: MachineRemark[] =
    lanes !== undefined && offeredLanes !== undefined && lanes < offeredLanes
      ? [
          {
            about: 'link',
            fact: say('Link ×{lanes} of ×{offeredLanes}.', { lanes, offeredLanes }),
            means: say(
              'Edge contacts, coupling capacitors or the core’s link side. Liftmap models none of them: no chance moves.',
            ),
            kind: 'not-modelled',
            source: BUS,
          },
        ]
      : []
  if (rate === undefined || offeredRate === undefined || rate >= offeredRate) return width
  const fact = say('{rate} of {offeredRate} GT/s.', { rate: numberWords(rate), offeredRate: numberWords(offeredRate) })
  const slow: MachineRemark =
    readAt === 'load'
      ? {
          about: 'link',
          fact,
          means: say(
            'A line of the link loses margin: contacts, coupling capacitors, core. Not modelled: no chance moves.',
          ),
          kind: 'not-modelled',
          source: BUS,
        }
      : {
          about: 'link',
          fact,
          means: say('Read it again under load: many cards lower the rate at idle.'),
          kind: 'habit',
          source: CP,
        }
  return [...width, slow]
}

function outputRemarks({ outputs }: Look): MachineRemark[] {
  const named = (picture: Look['outputs'][number]['picture']): string[] =>
    outputs.filter((output) => output.picture === picture).map(({ name }) => name)
  const [good, bad] = [named('yes'), [...named('no'), ...named('disturbed')]]
  if (bad.length === 0) return []
  const means =
    good.length === 0
      ? say('No output is well: core, its supplies or memory, or the firmware. Measure rails before you judge.')
      : say(
          'Others are well: its connector, protection parts, filters or the core’s display side. Try another cable first.',
        )
  return [
    {
      about: 'outputs',
      fact:
        good.length === 0
          ? say('No steady picture at {bad}.', { bad: joined(bad) })
          : say('No steady picture at {bad}; {good} well.', { bad: joined(bad), good: joined(good) }),
      means: say('{means} Not modelled: no chance moves.', { means }),
      kind: 'not-modelled',
      source: CP,
    },
  ]
}

function fanRemarks({ fans }: Look): MachineRemark[] {
  if (fans !== 'some stand' && fans !== 'none turns') return []
  const fact = fans === 'some stand' ? say('Some fans stand.') : say('No fan turns.')
  const means = say(
    'Many stand at idle: warm it up a little and look. Under load they must turn: no soak test before they do.',
  )
  return [{ about: 'fans', fact, means, kind: 'habit', source: CP }]
}

const habit = (fact: string, means: string): MachineRemark => ({
  about: 'temperatures',
  fact,
  means,
  kind: 'habit',
  source: CP,
})

function temperatureRemarks(temperatures: Temperatures | undefined): MachineRemark[] {
  if (temperatures === undefined) return []
  const { coreC, hotSpotC, memoryC, packages } = temperatures
  const over = coreC === undefined || hotSpotC === undefined ? undefined : hotSpotC - coreC
  const hottest = packages.toSorted((a, b) => b.celsius - a.celsius)[0]
  const coolest = packages.toSorted((a, b) => a.celsius - b.celsius)[0]
  const spread = hottest === undefined || coolest === undefined ? 0 : hottest.celsius - coolest.celsius
  const memoryMost = Math.max(memoryC ?? -Infinity, hottest?.celsius ?? -Infinity)
  return [
    ...(over !== undefined && over < 0
      ? [
          habit(
            say('Hot spot under the core.'),
            say('It can’t be: the hot spot is the hottest place of the core. Read again.'),
          ),
        ]
      : []),
    ...(over !== undefined && over > usual.hotSpotOverCoreK.value
      ? [
          habit(
            say('Hot spot {over} K over the core; up to {usual} K is usual.', {
              over: numberWords(over),
              usual: usual.hotSpotOverCoreK.value,
            }),
            say('Paste dried or thin, or the cooler sits askew: look at the print in the paste.'),
          ),
        ]
      : []),
    ...(spread > usual.packageSpreadK.value && hottest !== undefined && coolest !== undefined
      ? [
          habit(
            say('{hottest} {spread} K over {coolest}; up to {usual} K is usual.', {
              hottest: hottest.ref,
              spread: numberWords(spread),
              coolest: coolest.ref,
              usual: usual.packageSpreadK.value,
            }),
            say('Pad at {ref} torn, too thin or missing, or that package draws more.', { ref: hottest.ref }),
          ),
        ]
      : []),
    ...(hotSpotC !== undefined && hotSpotC >= usual.hotSpotMostC.value
      ? [
          habit(
            say('Hot spot at {hotSpotC} °C.', { hotSpotC: numberWords(hotSpotC) }),
            say('Take the load off, and see to the cooler first.'),
          ),
        ]
      : []),
    ...(memoryMost >= usual.memoryMostC.value
      ? [
          habit(
            say('Memory at {memoryMost} °C.', { memoryMost: numberWords(memoryMost) }),
            say('Take the load off; what it bears stands in its data sheet.'),
          ),
        ]
      : []),
  ]
}

/** Rise over the air of what was read in both phases at about the same load. */
function worseRemarks(before: Temperatures | undefined, after: Temperatures | undefined): MachineRemark[] {
  const rises = risesOf(before, after)
  if (rises.length === 0) return []
  if (!isSameLoad(before?.loadW, after?.loadW))
    return [
      habit(say('Before and after were read at different loads, or it was not noted.'), say('They don’t compare.')),
    ]
  return rises
    .filter(({ worseK }) => worseK > usual.refittedWorseK.value)
    .map(({ name, worseK }) =>
      habit(
        say('{name} {worseK} K hotter over the air than before, at the same load.', {
          name,
          worseK: numberWords(worseK),
        }),
        say('The cooler sits worse than it came: pads of the same thickness, paste, screws crosswise.'),
      ),
    )
}

/** @returns name and by how many kelvin the rise over the air grew, of each figure that both have */
function risesOf(
  before: Temperatures | undefined,
  after: Temperatures | undefined,
): { name: string; worseK: number }[] {
  if (before?.airC === undefined || after?.airC === undefined) return []
  const grown = after.airC - before.airC
  return (['coreC', 'hotSpotC', 'memoryC'] as const).flatMap((key) => {
    const [was, is] = [before[key], after[key]]
    return was === undefined || is === undefined ? [] : [{ name: temperatureNames[key], worseK: is - was - grown }]
  })
}

export const temperatureNames = {
  coreC: say('Core'),
  hotSpotC: say('Hot spot'),
  memoryC: say('Memory, hottest'),
} as const

const isSameLoad = (before: number | undefined, after: number | undefined): boolean =>
  before !== undefined &&
  after !== undefined &&
  Math.abs(after - before) <= usual.sameLoadShare.value * Math.max(before, after)

function firmwareRemarks({ benchMachine }: MachineFacts): MachineRemark[] {
  const firmware = benchMachine?.firmware
  if (firmware?.written !== 'yes' || firmware.saved === 'yes') return []
  return [
    {
      about: 'firmware',
      fact: say('Firmware written, and no copy of the old one is noted.'),
      means: say('What was on it can’t be put back: say so in the record.'),
      kind: 'habit',
      source: CP,
    },
  ]
}

function soakRemarks({ benchMachine }: MachineFacts): MachineRemark[] {
  const soaks = benchMachine?.soaks ?? []
  if (soaks.length === 0) return []
  const failed = soaks.filter(({ outcome }) => outcome !== 'held')
  const about = 'soak' as const
  if (failed.length > 0) {
    const fact = say('{failed} of {all} soak tests did not hold.', { failed: failed.length, all: soaks.length })
    return [{ about, fact, means: say('Not proven: find out why before it goes back.'), kind: 'habit', source: CP }]
  }
  const longest = Math.max(...soaks.map(({ hours }) => hours))
  if (longest >= usual.soakHours.value) return []
  const fact = say('Longest soak {longest} h; {usual} h at a stretch are usual.', {
    longest: numberWords(longest),
    usual: usual.soakHours.value,
  })
  return [
    { about, fact, means: say('Faults that come with warmth may not have shown yet.'), kind: 'habit', source: CP },
  ]
}
