/** What each remedy cures and how surely, and what work brings in: one data file, each figure with its reason. */
import { z } from 'zod'
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
    run: z.strictObject({ overlooks: chance }),
  })
  .parse(shipped)

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

/** @param harm of what was spilled: a wash does little against metal */
export function curesOf(harm: 'liquid' | 'metal' | 'crust'): Cures {
  const { wash, reball, replace, repairAround, look, run } = shippedCures
  const washed = { liquid: wash.beneath, metal: wash.beneathMetal, crust: wash.beneathCrust }[harm]
  return {
    washBeneath: washed.value,
    washOpen: wash.open.value,
    reballJoints: reball.joints.value,
    reballBeneath: (harm === 'metal' ? reball.beneathMetal : reball.beneath).value,
    replaceBeneath: replace.beneath.value,
    replaceDie: replace.die.value,
    repairBeside: repairAround.beside.value,
    seesBeneath: look.seesBeneath.value,
    falseAlarm: look.falseAlarm.value,
    overlooks: run.overlooks.value,
  }
}

/** How surely a lane of a badly refitted part fails. */
export const REFIT_FAILS = shippedCures.refit.failsALane.value

/** How seldom work that was to put a cause right leaves it there all the same: that of the remedies themselves. */
export const UNCURED = {
  die: 1 - shippedCures.replace.die.value,
  joints: 1 - shippedCures.reball.joints.value,
  beneath: {
    liquid: 1 - shippedCures.reball.beneath.value,
    crust: 1 - shippedCures.reball.beneath.value,
    metal: 1 - shippedCures.reball.beneathMetal.value,
  },
  beside: 1 - shippedCures.repairAround.beside.value,
} as const

/** The chance that a refit bridges a joint, leaves one open or sets the part turned; all but memory and core is other. */
export function refitDefect(kind: string): number {
  const { memory, core, other } = shippedCures.refit
  if (kind === 'memory') return memory.value
  return kind === 'core' ? core.value : other.value
}
