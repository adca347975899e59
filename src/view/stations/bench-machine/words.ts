/** One line on each fold: what it holds. */
import { numberWords } from '../../../base/index.ts'
import type { BenchPhase, Firmware, Look } from '../../../case/index.ts'

const NOT = 'not noted'

export function linkSummary({ link }: Look): string {
  if (link?.lanes === undefined && link?.rate === undefined) return NOT
  const { lanes, offeredLanes, rate, offeredRate } = link
  return [
    ...(lanes === undefined ? [] : [`×${lanes}${offeredLanes === undefined ? '' : ` of ×${offeredLanes}`}`]),
    ...(rate === undefined ? [] : [`${rate}${offeredRate === undefined ? '' : ` of ${offeredRate}`} GT/s`]),
  ].join(', ')
}

export function outputsSummary({ outputs }: Look): string {
  if (outputs.length === 0) return NOT
  const well = outputs.filter(({ picture }) => picture === 'yes').length
  const tried = outputs.filter(({ picture }) => picture !== 'unknown').length
  return tried === 0 ? `${outputs.length} named, none tried` : `${well} of ${tried} with a picture`
}

export function temperatureSummary({ temperatures }: Look): string {
  const { coreC, hotSpotC, memoryC, packages = [] } = temperatures ?? {}
  const read = [
    ...(coreC === undefined ? [] : [`core ${numberWords(coreC)}`]),
    ...(hotSpotC === undefined ? [] : [`hot spot ${numberWords(hotSpotC)}`]),
    ...(memoryC === undefined ? [] : [`memory ${numberWords(memoryC)}`]),
  ]
  if (read.length > 0) return `${read.join(', ')} °C`
  return packages.length === 0 ? NOT : `${packages.length} packages`
}

export function coolerSummary({ cooler }: Look): string {
  if (cooler === undefined) return NOT
  const { paste, pads, clampOrder } = cooler
  const held = [
    ...(paste === 'unknown' ? [] : [paste === 'none' ? 'no paste' : `${paste} paste`]),
    ...(pads.length === 0 ? [] : [`${pads.length} ${pads.length === 1 ? 'pad' : 'pads'}`]),
    ...(clampOrder === 'unknown' ? [] : [`screwed ${clampOrder}`]),
  ]
  return held.length === 0 ? NOT : held.join(', ')
}

export function firmwareSummary({ saved, written }: Firmware): string {
  const said = saved === 'yes' ? 'saved' : saved === 'no' ? 'not saved' : NOT
  return written === 'yes' ? `${said}, written` : said
}

/** What a look holds, for the one line that it stands behind. */
export function lookSummary(look: Look, firmware: Firmware, phase: BenchPhase): string {
  const subjects = [
    ...(phase === 'after' && look.detected !== 'unknown'
      ? [look.detected === 'yes' ? 'detected' : 'not detected']
      : []),
    ...(look.fans === 'unknown' ? [] : [look.fans === 'no fans' ? look.fans : `fans: ${look.fans}`]),
    ...noted('link', linkSummary(look)),
    ...noted('outputs', outputsSummary(look)),
    ...(look.errorWords === '' ? [] : ['error words']),
    ...noted('temperatures', temperatureSummary(look)),
    ...noted('cooler', coolerSummary(look)),
    ...(phase === 'before' ? noted('firmware', firmwareSummary(firmware)) : []),
  ]
  return subjects.length === 0 ? 'nothing noted' : subjects.join(', ')
}

const noted = (subject: string, held: string): string[] => (held === NOT ? [] : [subject])
