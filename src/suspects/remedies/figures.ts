/** What each remedy cures and how surely, and what work brings in: one data file, each figure with its reason. */
import { z } from 'zod'
import { sayData } from '../../base/index.ts'
import type { Assumptions } from '../assumptions.ts'
import shipped from './figures.json' with { type: 'json' }

const chance = z.strictObject({
  value: z.number().min(0).max(1),
  reason: z.string().min(1),
  source: z.string().min(1),
})

export const shippedCures = z
  .strictObject({
    wash: z.strictObject({ open: chance, beneath: chance, beneathMetal: chance, beneathCrust: chance }),
    reball: z.strictObject({ joints: chance, beneath: chance, beneathMetal: chance }),
    replace: z.strictObject({ die: chance, beneath: chance }),
    repairAround: z.strictObject({ beside: chance }),
    look: z.strictObject({ seesBeneath: chance, falseAlarm: chance }),
    refit: z.strictObject({ memory: chance, core: chance, other: chance, failsALane: chance }),
    run: z.strictObject({ overlooks: chance, overlooksSparse: chance }),
  })
  .parse(sayData(shipped))

/** Chances alone. */
export interface Cures {
  readonly washBeneath: number
  readonly washOpen: number
  readonly reballJoints: number
  readonly reballBeneath: number
  readonly replaceBeneath: number
  readonly replaceDie: number
  readonly repairBeside: number
  readonly seesBeneath: number
  readonly falseAlarm: number
  readonly overlooks: number
}

type Learnt = Assumptions['cures']
type Harm = 'liquid' | 'metal' | 'crust'

/** The cures that a shop can learn, as they ship. */
export const learnableCures: Readonly<Record<keyof Learnt, number>> = {
  replaceDie: shippedCures.replace.die.value,
  reballJoints: shippedCures.reball.joints.value,
  reballBeneath: shippedCures.reball.beneath.value,
  reballBeneathMetal: shippedCures.reball.beneathMetal.value,
  replaceBeneath: shippedCures.replace.beneath.value,
  repairBeside: shippedCures.repairAround.beside.value,
}

/** @param harm of what was spilled: a wash does little against metal; @param learnt what differs in this shop */
export function curesOf(harm: Harm, learnt: Learnt = {}): Cures {
  const { wash, look, run } = shippedCures
  const cures = { ...learnableCures, ...learnt }
  const washed = { liquid: wash.beneath, metal: wash.beneathMetal, crust: wash.beneathCrust }[harm]
  return {
    washBeneath: washed.value,
    washOpen: wash.open.value,
    reballJoints: cures.reballJoints,
    reballBeneath: harm === 'metal' ? cures.reballBeneathMetal : cures.reballBeneath,
    replaceBeneath: cures.replaceBeneath,
    replaceDie: cures.replaceDie,
    repairBeside: cures.repairBeside,
    seesBeneath: look.seesBeneath.value,
    falseAlarm: look.falseAlarm.value,
    overlooks: run.overlooks.value,
  }
}

/** How surely one run finds a lane to be good that failed before and was not put right; errors that come now and then more so. */
export const runOverlooks = (sparse: boolean): number =>
  (sparse ? shippedCures.run.overlooksSparse : shippedCures.run.overlooks).value

/** How surely a lane of a badly refitted part fails. */
export const REFIT_FAILS = shippedCures.refit.failsALane.value

export interface Uncured {
  readonly die: number
  readonly joints: number
  readonly beneath: Readonly<Record<Harm, number>>
  readonly beside: number
}

/** How seldom work that was to put a cause right leaves it there all the same: that of the remedies themselves. */
export function uncuredBy({ cures: learnt }: Pick<Assumptions, 'cures'>): Uncured {
  const cures = { ...learnableCures, ...learnt }
  return {
    die: 1 - cures.replaceDie,
    joints: 1 - cures.reballJoints,
    beneath: {
      liquid: 1 - cures.reballBeneath,
      crust: 1 - cures.reballBeneath,
      metal: 1 - cures.reballBeneathMetal,
    },
    beside: 1 - cures.repairBeside,
  }
}

/** The chance that a refit bridges a joint, leaves one open or sets the part turned; all but memory and core is other. */
export function refitDefect(kind: string): number {
  const { memory, core, other } = shippedCures.refit
  if (kind === 'memory') return memory.value
  return kind === 'core' ? core.value : other.value
}
