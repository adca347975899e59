/** What is known about a thing on the board, in short facts: for the status line and the head of its evidence. */
import { joined, millimetres, plainly, say } from '../../base/index.ts'
import type { BoardModel, PlacedPart } from '../../board/index.ts'
import { type Assessment, sideWords } from '../../case/index.ts'
import type { Tally } from '../../report/index.ts'
import type { Selection } from '../sheet/index.ts'
import { errorWords } from './tested.ts'
import { percent, spacedKind } from './words.ts'

/** Below this a chance is nobody's finding. */
const TOLD_FROM = 0.001

export function listPartFacts(
  model: BoardModel,
  { kind, id }: Selection,
  tally: Tally | undefined,
  assessment: Assessment | undefined,
): string[] {
  if (kind === 'lane') return laneFacts(model, id, tally)
  if (kind === 'region') return regionFacts(model, id, assessment)
  if (kind === 'rail') {
    const rail = model.rails.find((entry) => entry.name === id)
    return rail === undefined
      ? []
      : [say('rail {id}', { id }), say('feeds {feeds}', { feeds: joined(rail.feeds.slice(0, 8)) })]
  }
  if (kind === 'net') return [say('net {id}', { id })]
  const part = kind === 'part' ? model.partByRef.get(id) : undefined
  if (part === undefined) return []
  const channels = channelsOf(model, id)
  const errors = tally?.parts.find((entry) => entry.ref === id)
  const suspicion = assessment?.suspects.parts.find((entry) => entry.ref === id)
  const reached = reachOf(assessment, id)
  return [
    `${id} ${packageFacts(part)}`,
    ...(channels.length === 0
      ? []
      : [
          say('{length, plural, one {channel {names}} other {channels {names}}}', {
            length: channels.length,
            names: joined(channels),
          }),
        ]),
    ...(errors === undefined ? [] : [errorWords(errors)]),
    ...(reached === undefined ? [] : [say('reached with {reached}', { reached: percent(reached) })]),
    ...(suspicion === undefined || suspicion.probability < TOLD_FROM
      ? []
      : [say('needs lifting: {probability}', { probability: percent(suspicion.probability) })]),
  ]
}

function laneFacts(model: BoardModel, id: string, tally: Tally | undefined): string[] {
  const lane = model.laneById.get(id)
  if (lane === undefined) return []
  const tested = tally?.parts
    .flatMap((part) => part.channels.flatMap((channel) => channel.lanes))
    .find((entry) => entry.id === id)
  const state = tested?.state ?? 'untested'
  return [
    say('lane {id}', { id }),
    say('channel {channel}', { channel: lane.channel }),
    say('{bitCount, plural, one {# bit} other {# bits}}', { bitCount: lane.bitCount }),
    state === 'fail'
      ? say('{errors, plural, one {# error} other {# errors}}', { errors: tested?.errors ?? 0 })
      : state === 'pass'
        ? say('pass')
        : say('untested'),
  ]
}

function regionFacts(model: BoardModel, id: string, assessment: Assessment | undefined): string[] {
  const region = model.regionById.get(id)
  if (region === undefined) return []
  const reached = Math.max(
    0,
    ...(assessment?.reaches ?? []).map(
      (entry) => entry.reach.regions.find((found) => found.id === id)?.probability ?? 0,
    ),
  )
  return [
    say('region {id}', { id }),
    say('serves {lanes}', { lanes: joined(region.lanes) }),
    ...(reached > 0 ? [say('reached with {reached}', { reached: percent(reached) })] : []),
  ]
}

/** Ids of the channels that a part carries lanes of. */
export const channelsOf = (model: BoardModel, ref: string): string[] =>
  model.channels.filter((channel) => channel.parts.includes(ref)).map((channel) => channel.id)

/** Probability that some spill reached the part; undefined where no spill was computed. */
export function reachOf(assessment: Assessment | undefined, ref: string): number | undefined {
  if (assessment === undefined || assessment.reaches.length === 0) return undefined
  const missed = assessment.reaches.map(
    ({ reach }) => 1 - (reach.parts.find((part) => part.ref === ref)?.probability ?? 0),
  )
  return 1 - missed.reduce((product, p) => product * p, 1)
}

export function packageFacts(part: PlacedPart): string {
  const facts = [
    spacedKind(part.kind),
    ...(part.pads.length === 0
      ? []
      : [
          part.ballPitchMm === undefined
            ? say('{count} pads', { count: part.pads.length })
            : say('{count} balls', { count: part.pads.length }),
        ]),
    ...(part.ballPitchMm === undefined
      ? []
      : [say('{ballPitchMm} pitch', { ballPitchMm: millimetresFine(part.ballPitchMm) })]),
  ]
  return facts.join(', ')
}

const millimetresFine = (mm: number): string => `${plainly(Number(mm.toFixed(2)))} mm`

const bondedWords: Readonly<Record<PlacedPart['description']['bonding'], string | undefined>> = {
  none: undefined,
  corner: say('corner'),
  edge: say('edge'),
  underfill: say('underfill'),
}

export function partDetails(part: PlacedPart): { readonly name: string; readonly value: string }[] {
  const { description } = part
  const rows: (readonly [string, string | undefined])[] = [
    [say('package'), description.package],
    [say('value'), description.value],
    [say('body'), `${millimetres(part.widthMm)} × ${millimetres(part.lengthMm)} × ${millimetres(part.heightMm)}`],
    [say('gap under it'), millimetresFine(part.standoffMm)],
    [say('joint alloy'), description.jointAlloy],
    [say('heats so far'), description.heatCount === undefined ? undefined : String(description.heatCount)],
    [say('highest body temperature'), description.maxBodyC === undefined ? undefined : `${description.maxBodyC} °C`],
    [say('moisture level'), description.moistureLevel],
    [say('bonding'), bondedWords[description.bonding]],
    [say('side'), sideWords[part.side]],
  ]
  return rows.flatMap(([name, value]) => (value === undefined ? [] : [{ name, value }]))
}
