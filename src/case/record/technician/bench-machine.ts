/** Of the technician's record: what the bench machine showed before and after, the cooler, firmware, soak tests, what differs. */
import { joined, numberWords, say } from '../../../base/index.ts'
import {
  type BenchMachine,
  type BenchPhase,
  benchPhases,
  type Cooler,
  type Look,
  type Temperatures,
} from '../../bench-machine.ts'
import { type MachineRemark, machineRemarks, temperatureNames } from '../../bench-machine/remarks.ts'
import { facts, list, paragraph, quote, section, table } from '../blocks.ts'
import type { RecordBlock, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { fanWords } from '../../kind-words.ts'
import { knownWord } from '../known-words.ts'

/** Both looks side by side, then cooler, firmware, soak tests and remarks; what was not noted says so. */
export function benchMachineSection(input: RecordInput): RecordSection {
  const { benchMachine } = input.caseFile
  if (benchMachine === undefined) {
    return section(
      say('On the bench machine'),
      paragraph(say('Nothing of the bench machine was noted.')),
      ...remarkBlocks(input),
    )
  }
  const { before, after } = benchMachine
  return section(
    say('On the bench machine'),
    table(say('Before and after'), ['', say('Before the work'), say('After the work')], lookRows(before, after)),
    ...benchPhases.flatMap((phase) =>
      quote(
        say('Error messages, {phase, select, before {before} other {after}} the work', { phase }),
        benchMachine[phase]?.errorWords ?? '',
      ),
    ),
    ...benchPhases.flatMap((phase) => coolerBlocks(phase, benchMachine[phase]?.cooler)),
    ...firmwareBlocks(benchMachine),
    ...soakBlocks(benchMachine),
    ...remarkBlocks(input),
  )
}

const NOT = say('not noted')

function lookRows(before: Look | undefined, after: Look | undefined): string[][] {
  const row = (name: string, words: (look: Look) => string): string[] => [
    name,
    ...[before, after].map((look) => (look === undefined ? NOT : words(look) || NOT)),
  ]
  const degrees = (key: keyof typeof temperatureNames): string[] =>
    row(temperatureNames[key], ({ temperatures }) => celsius(temperatures?.[key]))
  return [
    row(say('Link'), linkWords),
    row(say('Display outputs'), ({ outputs }) =>
      outputs.map(({ name, picture }) => `${name}: ${pictures[picture]}`).join('; '),
    ),
    row(say('Fans'), ({ fans }) => (fans === 'unknown' ? '' : fanWords[fans])),
    row(say('Read at'), ({ temperatures }) => conditions(temperatures)),
    degrees('coreC'),
    degrees('hotSpotC'),
    degrees('memoryC'),
    row(say('Packages'), ({ temperatures }) =>
      (temperatures?.packages ?? []).map((each) => `${each.ref} ${celsius(each.celsius)}`).join(', '),
    ),
  ]
}

const pictures = {
  yes: say('picture'),
  disturbed: say('disturbed'),
  no: say('none'),
  unknown: say('not tried'),
} as const

const celsius = (value: number | undefined): string => (value === undefined ? '' : `${numberWords(value)} °C`)

function linkWords({ link }: Look): string {
  if (link === undefined) return ''
  const { lanes, offeredLanes, rate, offeredRate, readAt } = link
  return [
    ...(lanes === undefined
      ? []
      : [offeredLanes === undefined ? `×${lanes}` : say('×{lanes} of ×{offeredLanes}', { lanes, offeredLanes })]),
    ...(rate === undefined
      ? []
      : [
          offeredRate === undefined
            ? `${numberWords(rate)} GT/s`
            : say('{rate} of {offeredRate} GT/s', { rate: numberWords(rate), offeredRate: numberWords(offeredRate) }),
        ]),
    ...(readAt === 'unknown' ? [] : [readAt === 'idle' ? say('read idle') : say('read under load')]),
  ].join(', ')
}

function conditions(temperatures: Temperatures | undefined): string {
  if (temperatures === undefined) return ''
  const { airC, loadW, minutes } = temperatures
  return [
    ...(loadW === undefined ? [] : [`${numberWords(loadW)} W`]),
    ...(minutes === undefined ? [] : [say('after {minutes} min', { minutes: numberWords(minutes) })]),
    ...(airC === undefined ? [] : [say('air {airC}', { airC: celsius(airC) })]),
  ].join(', ')
}

const pastes = {
  kept: say('kept'),
  new: say('new'),
  dry: say('dried out'),
  none: say('none'),
  unknown: say('not said'),
} as const

function coolerBlocks(phase: BenchPhase, cooler: Cooler | undefined): RecordBlock[] {
  if (cooler === undefined) return []
  const { paste, pasteWords, pads, clampOrder, clampWords } = cooler
  const padWords = pads.map(
    ({ where, thicknessMm, state }) =>
      `${where}: ${thicknessMm === undefined ? say('thickness not noted') : `${numberWords(thicknessMm)} mm`}${state === 'unknown' ? '' : `, ${knownWord(state)}`}`,
  )
  return [
    facts(phase === 'before' ? say('Cooler as it came') : say('Cooler as refitted'), [
      [
        say('Paste'),
        [...(paste === 'unknown' ? [] : [pastes[paste]]), ...(pasteWords === '' ? [] : [pasteWords])].join(', '),
      ],
      [say('Pads'), padWords.join('; ')],
      [
        say('Screws'),
        [...(clampOrder === 'unknown' ? [] : [knownWord(clampOrder)]), ...(clampWords === '' ? [] : [clampWords])].join(
          ', ',
        ),
      ],
    ]),
  ]
}

const answers = { yes: say('yes'), no: say('no'), unknown: '' } as const

const firmwareBlocks = ({ firmware }: BenchMachine): RecordBlock[] =>
  firmware === undefined
    ? []
    : [
        facts(say('Firmware'), [
          [say('Saved before anything was written'), answers[firmware.saved]],
          [say('Copy'), firmware.where],
          [say('Written'), answers[firmware.written]],
        ]),
      ]

const outcomes = { held: say('held, no error'), errors: say('errors'), 'broke off': say('broke off') } as const

function soakBlocks({ soaks }: BenchMachine): RecordBlock[] {
  if (soaks.length === 0) return [paragraph(say('No load or soak test was noted.'))]
  const rows = soaks.map(({ load, hours, airC, hottestC, outcome }) => [
    load,
    `${numberWords(hours)} h`,
    celsius(airC) || NOT,
    celsius(hottestC) || NOT,
    outcomes[outcome],
  ])
  return [
    table(say('Load and soak tests'), [say('Load'), say('Hours#'), say('Air#'), say('Hottest#'), say('Outcome')], rows),
  ]
}

function remarkBlocks({ caseFile, tally, retest }: RecordInput): RecordBlock[] {
  const said = ({ fact, means, source }: MachineRemark): string => `${fact} ${means} (${source})`
  return benchPhases.flatMap((phase) => {
    const remarks = machineRemarks(caseFile, phase, (phase === 'before' ? tally : retest) !== undefined)
    if (remarks.length === 0) return []
    const about = joined([...new Set(remarks.map((remark) => knownWord(remark.about)))])
    return [
      paragraph(
        say('Unlike usual {phase, select, before {before} other {after}} the work: {about}.', { phase, about }),
      ),
      ...list(remarks.map(said)),
    ]
  })
}
