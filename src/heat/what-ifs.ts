/** One change at a time to a setting that works: shield a neighbour, more preheat, another nozzle, the other side up. */
import { decimals, say } from '../base/index.ts'
import type { BoardModel, Side } from '../board/index.ts'
import type { Equipment } from './equipment.ts'
import { searchFor } from './find-refit.ts'
import type { SettingWish } from './find-setting.ts'
import type { HeatRun, HeatSetting } from './result.ts'
import { simulate } from './simulate.ts'
import { buildThermalBoard } from './thermal-board.ts'

export interface WhatIf {
  readonly kind: 'tape' | 'heat-sink' | 'more-preheat' | 'smaller-nozzle' | 'other-side'
  readonly title: string
  /** One or two sentences: what changes for the target and for the hottest neighbour. */
  readonly sentence: string
  readonly setting: HeatSetting | undefined
  readonly run: HeatRun | undefined
}

export interface WhatIfWish {
  readonly target: string
  /** What the pass is for; lifting where left out. */
  readonly purpose?: 'lift' | 'refit'
  readonly equipment: Equipment
  /** The run that the changes are compared with. */
  readonly run: HeatRun
  /** The neighbour to shield; the hottest with drawn joints where left out. */
  readonly neighbour?: string
  /** Only these; all where left out. */
  readonly kinds?: readonly WhatIf['kind'][]
}

const MORE_PREHEAT_C = 30

/** Each comparison stands for itself; one that can't be done says so. About one solve each. */
export function whatIfs(model: BoardModel, wish: WhatIfWish): WhatIf[] {
  const neighbour = wish.neighbour ?? hottestNeighbour(model, wish.run, wish.target)
  const shielded = (kind: 'tape' | 'heat-sink') => () =>
    neighbour === undefined
      ? unable(kind, say('shield a neighbour'), say('There is no neighbour with drawn joints.'))
      : withShield(model, wish, neighbour, kind)
  const tries: readonly (readonly [WhatIf['kind'], () => WhatIf])[] = [
    ['tape', shielded('tape')],
    ['heat-sink', shielded('heat-sink')],
    ['more-preheat', () => morePreheat(model, wish)],
    ['smaller-nozzle', () => smallerNozzle(model, wish)],
    ['other-side', () => otherSide(model, wish, wish.run.setting.side)],
  ]
  const { kinds } = wish
  return tries.filter(([kind]) => kinds === undefined || kinds.includes(kind)).map(([, run]) => run())
}

function hottestNeighbour(model: BoardModel, run: HeatRun, target: string): string | undefined {
  return run.parts
    .filter(({ ref }) => ref !== target && (model.partByRef.get(ref)?.pads.length ?? 0) > 0)
    .toSorted((a, b) => b.jointPeakC - a.jointPeakC)[0]?.ref
}

function withShield(model: BoardModel, wish: WhatIfWish, neighbour: string, kind: 'tape' | 'heat-sink'): WhatIf {
  const shields = [...wish.run.setting.shields.filter(({ ref }) => ref !== neighbour), { ref: neighbour, kind }]
  const what = kind === 'tape' ? say('tape') : say('a heat sink')
  return rerun(model, wish, kind, say('{neighbour} under {what}', { neighbour, what }), {
    ...wish.run.setting,
    shields,
  })
}

function morePreheat(model: BoardModel, wish: WhatIfWish): WhatIf {
  const { setting } = wish.run
  const preheatC = Math.min(wish.equipment.preheater.maxC, setting.preheatC + MORE_PREHEAT_C)
  const title = say('preheat at {preheatC} °C', { preheatC })
  if (preheatC <= setting.preheatC) return unable('more-preheat', title, say('The preheater gives no more.'))
  return rerun(model, wish, 'more-preheat', title, { ...setting, preheatC })
}

function smallerNozzle(model: BoardModel, wish: WhatIfWish): WhatIf {
  const { setting } = wish.run
  const smaller = wish.equipment.nozzles
    .filter(({ sizeMm }) => sizeMm < setting.nozzle.sizeMm)
    .toSorted((a, b) => b.sizeMm - a.sizeMm)[0]
  if (smaller === undefined)
    return unable('smaller-nozzle', say('a smaller nozzle'), say('There is no smaller nozzle.'))
  return researched(model, wish, 'smaller-nozzle', say('nozzle {name}', { name: smaller.name }), { nozzle: smaller })
}

function otherSide(model: BoardModel, wish: WhatIfWish, side: Side): WhatIf {
  const other = side === 'top' ? 'bottom' : 'top'
  return researched(
    model,
    wish,
    'other-side',
    say('air from the {side, select, top {top} other {bottom}}', { side: other }),
    { side: other },
  )
}

function rerun(model: BoardModel, wish: WhatIfWish, kind: WhatIf['kind'], title: string, setting: HeatSetting): WhatIf {
  const board = buildThermalBoard(model, {
    side: setting.side,
    shields: setting.shields,
    cellMm: wish.run.grid.cellMm,
  })
  if (!board.ok) return unable(kind, title, say('The board can’t be set up this way.'))
  const run = simulate(board.value, setting)
  return run.ok ? compared(wish, kind, title, run.value) : unable(kind, title, say('The run was refused.'))
}

function researched(
  model: BoardModel,
  wish: WhatIfWish,
  kind: WhatIf['kind'],
  title: string,
  change: Partial<SettingWish>,
): WhatIf {
  const { setting, grid } = wish.run
  const found = searchFor(wish.purpose ?? 'lift')(model, {
    ref: wish.target,
    equipment: wish.equipment,
    side: setting.side,
    shields: setting.shields,
    cellMm: grid.cellMm,
    ...change,
  })
  if (!found.ok) return unable(kind, title, say('It was refused.'))
  if ('cannot' in found.value) return unable(kind, title, found.value.cannot[0] ?? say('It can’t be done.'))
  return compared(wish, kind, title, found.value.run)
}

const unable = (kind: WhatIf['kind'], title: string, sentence: string): WhatIf => ({
  kind,
  title,
  sentence,
  setting: undefined,
  run: undefined,
})

function compared(wish: WhatIfWish, kind: WhatIf['kind'], title: string, run: HeatRun): WhatIf {
  const before = meltingCount(wish.run, wish.target)
  const after = meltingCount(run, wish.target)
  const targetBefore = coldestOf(wish.run, wish.target)
  const targetAfter = coldestOf(run, wish.target)
  const moved = mostChanged(wish.run, run, wish.target)
  const neighbour =
    moved === undefined
      ? ''
      : say(' {ref} peaks at {afterC} °C, not {beforeC} °C.', {
          ref: moved.ref,
          afterC: decimals(moved.afterC, 0),
          beforeC: decimals(moved.beforeC, 0),
        })
  return {
    kind,
    title,
    sentence: say(
      'The target’s coldest joint peaks at {targetAfter} °C (now {targetBefore} °C); {after} other parts melt (now {before}).{neighbour}',
      { targetAfter: decimals(targetAfter, 0), targetBefore: decimals(targetBefore, 0), after, before, neighbour },
    ),
    setting: run.setting,
    run,
  }
}

const meltingCount = (run: HeatRun, target: string): number =>
  run.parts.filter((part) => part.melts && part.ref !== target).length

function coldestOf(run: HeatRun, ref: string): number {
  const part = run.parts.find((each) => each.ref === ref)
  return part?.coldestJointPeakC ?? part?.jointPeakC ?? Number.NaN
}

function mostChanged(before: HeatRun, after: HeatRun, target: string) {
  const was = new Map(before.parts.map(({ ref, jointPeakC }) => [ref, jointPeakC]))
  return after.parts
    .filter(({ ref, melts }) => ref !== target && (melts || (was.get(ref) ?? 0) > 200))
    .map(({ ref, jointPeakC }) => ({ ref, beforeC: was.get(ref) ?? jointPeakC, afterC: jointPeakC }))
    .toSorted((a, b) => Math.abs(b.afterC - b.beforeC) - Math.abs(a.afterC - a.beforeC))[0]
}
