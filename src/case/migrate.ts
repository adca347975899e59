/** Case files of older versions, brought up to the present one step at a time. */
export const CASE_VERSION = 2

type Plain = Readonly<Record<string, unknown>>

/** By the version that it takes: a plain value of that version in, one of the next version out. */
const steps: Readonly<Record<number, (old: Plain) => Plain>> = {
  // what version 2 added has defaults: measurements, photos, checks, proof and hand-back
  1: (old) => ({ ...old, version: 2 }),
}

/** @returns the value as a case of the present version, where it is an older one; what is wrong with it stays wrong */
export function migrateCase(input: Plain): Plain {
  let value = input
  for (;;) {
    const version = value['version']
    const step = typeof version === 'number' && version < CASE_VERSION ? steps[version] : undefined
    if (step === undefined) return value
    value = step(value)
  }
}
