/** Faults of the rails: names, parts, pads, ranges of resistance and of diode mode. */
import { decimals, type Fault, jsonPath, say, showValue } from '../base/index.ts'
import { type KnownParts } from './known-parts.ts'
import { checkPolygon, repeated } from './check-parts.ts'
import { farthestOff } from './check-shape.ts'
import type { BoardDraft } from './draft.ts'
import type { Rail } from './schema.ts'

/**
 * Repeated names, refs that no part has, probe points, ranges of resistance, and copper that is no polygon or lies
 * off the board.
 */
export function checkRails(draft: BoardDraft, known: KnownParts): Fault[] {
  return [
    ...repeated(
      draft.rails,
      (rail) => rail.name,
      (index) => ['rails', index, 'name'],
      say('a rail name that stands once'),
    ),
    ...draft.rails.flatMap(({ index, value }) => [
      ...checkRefs(['rails', index, 'stages'], value.stages, draft),
      ...checkRefs(['rails', index, 'feeds'], value.feeds, draft),
      ...checkBranches(index, value, draft),
      ...checkPoints(index, value, draft, known),
      ...checkRanges(index, value),
      ...checkCopper(index, value, draft),
    ]),
  ]
}

function checkRefs(steps: readonly PropertyKey[], refs: readonly string[], draft: BoardDraft): Fault[] {
  return refs.flatMap((ref, i) =>
    draft.refs.has(ref)
      ? []
      : [
          {
            path: jsonPath([...steps, i]),
            found: say('{ref}, which no part has', { ref: showValue(ref) }),
            expected: say('the ref of a part'),
          },
        ],
  )
}

function checkBranches(index: number, rail: Rail, draft: BoardDraft): Fault[] {
  const branches = rail.branches.map((value, i) => ({ index: i, value }))
  const fed = new Set(rail.feeds)
  const faults = repeated(
    branches,
    (branch) => branch.name,
    (i) => ['rails', index, 'branches', i, 'name'],
    say('a branch name that the rail has once'),
  )
  for (const { index: i, value } of branches) {
    const steps = ['rails', index, 'branches', i, 'feeds']
    faults.push(...checkRefs(steps, value.feeds, draft))
    for (const [k, ref] of value.feeds.entries())
      if (draft.refs.has(ref) && !fed.has(ref))
        faults.push({
          path: jsonPath([...steps, k]),
          found: say('{ref}, which the rail itself does not feed', { ref: showValue(ref) }),
          expected: say('a part that stands in the rail’s feeds'),
        })
  }
  return faults
}

function checkPoints(index: number, rail: Rail, draft: BoardDraft, known: KnownParts): Fault[] {
  return rail.points.flatMap(({ part: ref, pad }, i) => {
    const steps = ['rails', index, 'points', i]
    if (ref === undefined) return []
    const missing = checkRefs([...steps, 'part'], [ref], draft).map((fault) => ({
      ...fault,
      path: jsonPath([...steps, 'part']),
    }))
    const names = known.padNames(ref)
    if (pad === undefined || names === undefined || names.has(pad)) return missing
    return [{ path: jsonPath([...steps, 'pad']), found: showValue(pad), expected: say('a pad of {ref}', { ref }) }]
  })
}

function checkRanges(index: number, rail: Rail): Fault[] {
  const { ohmsToGround: ohms, diodeToGround: diode } = rail
  const faults: Fault[] = []
  if (ohms !== undefined && ohms.lowOhm > ohms.highOhm)
    faults.push({
      path: jsonPath(['rails', index, 'ohmsToGround']),
      found: say('a range from {lowOhm} to {highOhm} ohm', { lowOhm: ohms.lowOhm, highOhm: ohms.highOhm }),
      expected: say('lowOhm at most highOhm'),
    })
  if (diode !== undefined && diode.lowV > diode.highV)
    faults.push({
      path: jsonPath(['rails', index, 'diodeToGround']),
      found: say('a range from {lowV} to {highV} V', { lowV: diode.lowV, highV: diode.highV }),
      expected: say('lowV at most highV'),
    })
  return faults
}

/** How far copper may lie beyond the board's edge: rounding. */
const EDGE_SLACK_MM = 0.05

function checkCopper(index: number, rail: Rail, draft: BoardDraft): Fault[] {
  return (rail.copper ?? []).flatMap(({ polygon }, i) => {
    const path = jsonPath(['rails', index, 'copper', i, 'polygon'])
    const faults = checkPolygon(path, polygon)
    const off = draft.outline === undefined ? 0 : farthestOff(draft.outline, polygon)
    if (off <= EDGE_SLACK_MM) return faults
    const found = say('copper that reaches {off} mm beyond the board’s edge', { off: decimals(off, 2) })
    return [...faults, { path, found, expected: say('a polygon on the board, in the board’s own mm') }]
  })
}
