/** From a pattern to a whole board: every part placed, lanes, rails; checked like any board file. */
import { faultsFromZod, type Result, say } from '../../base/index.ts'
import { loadBoard } from '../load.ts'
import type { BoardModel } from '../model.ts'
import type { PackageOutline } from '../package-outline.ts'
import { Canvas, type FilePart } from './canvas.ts'
import { memoryPart } from './card-parts.ts'
import { cardHoles, cardOutline } from './card-shape.ts'
import { type PackagePair, ringChannels } from './channels.ts'
import { type CardLayout, layoutOf } from './layout.ts'
import { memoryKinds, outlineNamed } from './memory-kinds.ts'
import { type RingPlace, ringPlaces, turnedRound } from './memory-ring.ts'
import { type BoardPattern, boardPatternSchema } from './pattern.ts'
import { putPatternPower } from './power.ts'
import { isStack, stackPlaces } from './stacks.ts'
import { patternRails } from './rails.ts'

const CORE_REF = 'U1'
const CORE_HEIGHT_MM = 2.6
const FIRST_MEMORY = 11
const FIRST_BEHIND = 31

/** What no pattern tells, in words: shown beside the board like what an imported layout does not tell. */
export const patternUntold: readonly string[] = [
  say('Where its parts stand: they stand as is usual, nothing was measured.'),
  say(
    'Which address belongs to which channel: a report must name lanes, channels or parts itself, until the map is learnt.',
  ),
  say('Which channel is where, and which data bit is on which ball: both are assumed or left open.'),
  say('Its rails as they are: their ranges are common practice, for comparison only.'),
]

/**
 * A board of the usual form: core in the middle, packages about it (the slot's side free where the card is too low for a
 * ring), stages in columns beside, connectors and slot. The same pattern gives the same board.
 * @returns the checked board without an address map, or every fault of the pattern by its field
 */
export function boardFromPattern(input: BoardPattern): Result<BoardModel> {
  const parsed = boardPatternSchema.safeParse(input)
  if (!parsed.success) return { ok: false, faults: faultsFromZod(parsed.error, input) }
  const pattern = parsed.data
  const layout = layoutOf(pattern)
  if (!layout.ok) return layout
  const outline = cardOutline(layout.value)
  const holes = cardHoles(layout.value)
  const canvas = new Canvas(outline, holes)
  canvas.put(corePart(layout.value), layout.value.core.sizeMm, layout.value.core.sizeMm)
  const pairs = putMemories(canvas, pattern, layout.value)
  const power = putPatternPower(canvas, layout.value, pattern.supplies)
  const memories = pairs.flatMap(({ front, back }) => (back === undefined ? [front] : [front, back]))
  return loadBoard({
    format: 'liftmap-board',
    version: 1,
    name: pattern.name,
    note: noteOf(pattern, memories.length),
    outline,
    holes,
    parts: canvas.parts,
    rails: patternRails(canvas, power, memories, CORE_REF),
    memory: { channels: ringChannels(pattern.package, pairs) },
  })
}

const noteOf = ({ busBits, package: name, sides }: BoardPattern, count: number): string =>
  say('Made from a pattern: {busBits} bit, {packages} ({name}), {value}. ', {
    busBits,
    packages: isStack(name)
      ? say('{count, plural, one {# stack} other {# stacks}}', { count })
      : say('{count, plural, one {# package} other {# packages}}', { count }),
    name,
    value: sides === 'both' ? say('both sides') : say('one side'),
  }) + say('What a pattern does not tell: {patternUntold}', { patternUntold: patternUntold.join(' ') })

function corePart({ core }: CardLayout): FilePart {
  const shared = { ref: CORE_REF, kind: 'core' as const, side: 'top' as const, at: core.at }
  if (core.package !== undefined) return { ...shared, package: core.package }
  return { ...shared, body: { widthMm: core.sizeMm, lengthMm: core.sizeMm, heightMm: CORE_HEIGHT_MM } }
}

/** Fronts from U11 on, those behind from U31 on: of cards with both sides no front has more than twenty packages. */
function putMemories(canvas: Canvas, { package: name }: BoardPattern, layout: CardLayout): PackagePair[] {
  const outline = outlineNamed(name)
  const { widthMm, lengthMm } = outline.body
  const { core, ring, packages } = layout
  if (isStack(name)) {
    return stackPlaces(name, packages.front, core.at).map((place, i) => {
      const front = `U${FIRST_MEMORY + i}`
      canvas.put({ ...memoryPart(front, 'top', place, name), carriedBy: CORE_REF }, widthMm, lengthMm)
      return { front }
    })
  }
  const places = ringPlaces({ core, gapMm: ring.gapMm, lengthMm, offsetsMm: ring.offsetsMm })
  return places.map((place, i) => {
    const front = `U${FIRST_MEMORY + i}`
    canvas.put(memoryPart(front, 'top', frontPlace(outline, place), name), widthMm, lengthMm)
    if (i >= packages.back) return { front }
    const back = `U${FIRST_BEHIND + i}`
    const behind = memoryKinds[name].halves === undefined ? frontPlace(outline, place) : turnedRound(place)
    canvas.put(memoryPart(back, 'bottom', behind, name), widthMm, lengthMm)
    return { front, back }
  })
}

/**
 * A package with all its lanes at the end of row A stands with that end towards the core, others with that of the last row.
 * @param place turned so that the last row lies towards the core
 */
export function frontPlace(outline: PackageOutline, place: RingPlace): RingPlace {
  const { rows } = outline.grid
  const lanes = outline.regions.filter(({ role }) => role === 'lane')
  const allAbove = lanes.every((lane) => rows.indexOf(lane.rows[1]) <= Math.ceil(rows.length / 2))
  return allAbove ? turnedRound(place) : place
}
