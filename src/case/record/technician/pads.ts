/** Of the technician's record: glue, torn pads, lost balls, cut tracks and vias, each with what it carries and its repair. */
import { joined, numberWords, say } from '../../../base/index.ts'
import { binWords } from '../../bins.ts'
import type { PadRepair } from '../../pad-repairs.ts'
import { padMeaning, padRepairRemarks, pathLengthMm } from '../../pad-repairs/meaning.ts'
import { list, paragraph, section, table } from '../blocks.ts'
import type { RecordBlock, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { carriesWords, padHurtWords } from '../../kind-words.ts'
import { knownWord } from '../known-words.ts'

/** Every pad and track that was noted; torn pads whose ball nobody noted are named. */
export function padsSection(input: RecordInput): RecordSection {
  const { padRepairs = [] } = input.caseFile
  const rows = padRepairs.map((repair) => rowOf(input, repair))
  const open = padRepairs.flatMap((repair) =>
    padRepairRemarks(input.model, repair).map((remark) => `${nameOf(repair)}: ${remark}`),
  )
  return section(
    say('Pads and tracks'),
    ...(rows.length === 0
      ? [paragraph(say('No torn pad and no cut track was noted by its ball.'))]
      : [
          table(
            say('Hurt and mended'),
            [
              say('Where'),
              say('Hurt'),
              say('Carries'),
              say('Done'),
              say('Way'),
              say('Via'),
              say('End to end'),
              say('Note'),
            ],
            rows,
          ),
        ]),
    ...list(open),
    ...unnamedBlocks(input),
    ...glueBlocks(input),
    ...binBlocks(input),
  )
}

const nameOf = ({ ref, pad }: PadRepair): string => [ref, pad].filter(Boolean).join(' ')

const remedies: Readonly<Record<PadRepair['remedy'], string>> = {
  'not yet': say('not yet'),
  none: say('left as it is'),
  jumper: say('jumper wire'),
  track: say('track mended'),
  'new pad': say('new pad'),
}

function rowOf({ model }: RecordInput, repair: PadRepair): string[] {
  const { ref, pad, hurt, remedy, path, side, via, ohm, note } = repair
  const meaning = pad === '' ? undefined : padMeaning(model, ref, pad)
  const points = path.map(({ x, y }) => `${numberWords(x)}, ${numberWords(y)}`).join('; ')
  return [
    nameOf(repair),
    padHurtWords[hurt],
    meaning === undefined
      ? say('not told')
      : meaning.name === meaning.carries
        ? carriesWords[meaning.carries]
        : `${carriesWords[meaning.carries]}, ${meaning.name}`,
    remedies[remedy],
    path.length < 2
      ? say('not drawn')
      : say('{path} mm, {side, select, top {top} other {bottom}} side: {points} mm', {
          path: numberWords(Number(pathLengthMm(path).toFixed(1))),
          side,
          points,
        }),
    knownWord(via),
    ohm === undefined ? say('not measured') : `${numberWords(ohm)} Ω`,
    note,
  ]
}

function unnamedBlocks({ caseFile: { passes, padRepairs = [] } }: RecordInput): RecordBlock[] {
  const torn = passes.flatMap(({ found }) => found.flatMap(({ ref, what }) => (what.includes('torn-pad') ? [ref] : [])))
  const unnamed = [...new Set(torn)].filter((ref) => !padRepairs.some((each) => each.ref === ref))
  return unnamed.length === 0
    ? []
    : [paragraph(say('A torn pad was found at {unnamed}; which ball was not noted.', { unnamed: joined(unnamed) }))]
}

function binBlocks({ caseFile: { bins = [] } }: RecordInput): RecordBlock[] {
  const told = bins.map((bin) => `${bin.ref}: ${binWords(bin) || say('nothing noted')}`)
  return told.length === 0 ? [] : [paragraph(say('Lifted parts lay in these bins:')), ...list(told)]
}

const bondings = {
  corner: say('glued at its corners'),
  edge: say('bonded all around'),
  underfill: say('underfilled'),
} as const

/** Of the parts that came off or were to. */
function glueBlocks({ model, caseFile: { passes } }: RecordInput): RecordBlock[] {
  const refs = [...new Set(passes.flatMap((pass) => pass.refs))]
  const glued = refs.flatMap((ref) => {
    const bonding = model.partByRef.get(ref)?.description.bonding ?? 'none'
    return bonding === 'none' ? [] : [say('{ref} was {bondings}', { ref, bondings: bondings[bonding] })]
  })
  return glued.length === 0 ? [] : [paragraph(`${joined(glued)}.`)]
}
