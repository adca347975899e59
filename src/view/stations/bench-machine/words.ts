/** One line on each fold: what it holds. */
import { numberWords, say } from '../../../base/index.ts'
import { type BenchPhase, fanWords, type Firmware, type Look } from '../../../case/index.ts'

const NOT = say('not noted')

export function linkSummary({ link }: Look): string {
  if (link?.lanes === undefined && link?.rate === undefined) return NOT
  const { lanes, offeredLanes, rate, offeredRate } = link
  return [
    ...(lanes === undefined ? [] : [offeredLanes === undefined ? `×${lanes}` : widthOf(lanes, offeredLanes)]),
    ...(rate === undefined ? [] : [`${offeredRate === undefined ? rate : rateOf(rate, offeredRate)} GT/s`]),
  ].join(', ')
}

const widthOf = (lanes: number, offered: number): string => say('×{lanes} of ×{offered}', { lanes, offered })
const rateOf = (rate: number, offered: number): string => say('{rate} of {offered}', { rate, offered })

export function outputsSummary({ outputs }: Look): string {
  if (outputs.length === 0) return NOT
  const well = outputs.filter(({ picture }) => picture === 'yes').length
  const tried = outputs.filter(({ picture }) => picture !== 'unknown').length
  return tried === 0
    ? say('{length} named, none tried', { length: outputs.length })
    : say('{well} of {tried} with a picture', { well, tried })
}

export function temperatureSummary({ temperatures }: Look): string {
  const { coreC, hotSpotC, memoryC, packages = [] } = temperatures ?? {}
  const read = [
    ...(coreC === undefined ? [] : [say('core {coreC}', { coreC: numberWords(coreC) })]),
    ...(hotSpotC === undefined ? [] : [say('hot spot {hotSpotC}', { hotSpotC: numberWords(hotSpotC) })]),
    ...(memoryC === undefined ? [] : [say('memory {memoryC}', { memoryC: numberWords(memoryC) })]),
  ]
  if (read.length > 0) return `${read.join(', ')} °C`
  return packages.length === 0 ? NOT : say('{length} packages', { length: packages.length })
}

export function coolerSummary({ cooler }: Look): string {
  if (cooler === undefined) return NOT
  const { paste, pads, clampOrder } = cooler
  const held = [
    ...(paste === 'unknown'
      ? []
      : [say('{paste, select, none {no paste} kept {kept paste} new {new paste} other {dry paste}}', { paste })]),
    ...(pads.length === 0 ? [] : [say('{length, plural, one {# pad} other {# pads}}', { length: pads.length })]),
    ...(clampOrder === 'unknown'
      ? []
      : [clampOrder === 'crosswise' ? say('screwed crosswise') : say('screwed one after the other')]),
  ]
  return held.length === 0 ? NOT : held.join(', ')
}

export function firmwareSummary({ saved, written }: Firmware): string {
  const said = saved === 'yes' ? say('saved') : saved === 'no' ? say('not saved') : NOT
  return written === 'yes' ? say('{said}, written', { said }) : said
}

/** What a look holds, for the one line that it stands behind. */
export function lookSummary(look: Look, firmware: Firmware, phase: BenchPhase): string {
  const subjects = [
    ...(phase === 'after' && look.detected !== 'unknown'
      ? [look.detected === 'yes' ? say('detected') : say('not detected')]
      : []),
    ...(look.fans === 'unknown'
      ? []
      : [look.fans === 'no fans' ? fanWords[look.fans] : say('fans: {fans}', { fans: fanWords[look.fans] })]),
    ...noted(say('link'), linkSummary(look)),
    ...noted(say('outputs'), outputsSummary(look)),
    ...(look.errorWords === '' ? [] : [say('error messages')]),
    ...noted(say('temperatures'), temperatureSummary(look)),
    ...noted(say('cooler'), coolerSummary(look)),
    ...(phase === 'before' ? noted(say('firmware'), firmwareSummary(firmware)) : []),
  ]
  return subjects.length === 0 ? say('nothing noted') : subjects.join(', ')
}

const noted = (subject: string, held: string): string[] => (held === NOT ? [] : [subject])
