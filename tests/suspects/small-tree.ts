/** A small card to decide about, for trees that are reckoned by hand: two parts, two worlds, remedies and looks that never fail. */
import type { TreePart, TreeProblem } from '../../src/suspects/index.ts'

/** Every remedy cures, every look tells. */
export const SURE: TreeProblem['cures'] = {
  washBeneath: 0,
  washOpen: 0,
  reballJoints: 1,
  reballBeneath: 1,
  replaceBeneath: 1,
  replaceDie: 1,
  repairBeside: 1,
  seesBeneath: 1,
  falseAlarm: 0,
  overlooks: 0,
}

/** @param minutesPer of each unit of money that work costs */
export function smallTree(minutesPer: number) {
  const work = (money: number) => ({ money, minutes: minutesPer * money })
  const part = (ref: string, lift: number, reball: number, replace: number, bits: Partial<TreePart>): TreePart => ({
    ref,
    lift: work(lift),
    reball: work(reball),
    replace: work(replace),
    lossChance: 0,
    lossMoney: 0,
    lossEnds: false,
    refitDefect: 0,
    die: 0,
    joints: 0,
    beneath: 0,
    touches: 0,
    ...bits,
  })
  /** Either something lies under U1 (0.6) or U2 is bad itself (0.4). */
  const either: TreeProblem = {
    faults: [
      { kind: 'unknown', at: '', touches: 3 },
      { kind: 'beneath', at: 'U1', touches: 3 },
      { kind: 'die', at: 'U2', touches: 2 },
    ],
    sets: Int32Array.from([2, 4]),
    weights: Float64Array.from([0.6, 0.4]),
    parts: [part('U1', 100, 40, 240, { beneath: 2 }), part('U2', 50, 20, 35, { die: 4 })],
    places: [],
    placeEffort: work(10),
    wash: undefined,
    byHand: false,
    open: 0,
    run: work(10),
    prepare: work(0),
    cures: SURE,
    giveUpCold: 1000,
    giveUpHot: 1000,
    comeback: 300,
    begun: { off: 0, hot: false },
    depth: 5,
    liftsBeyond: true,
  }
  return { work, part, either }
}
