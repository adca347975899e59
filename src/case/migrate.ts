/** Case files of older versions, brought up to the present one step at a time. */
import { say } from '../base/index.ts'

export const CASE_VERSION = 3

type Plain = Readonly<Record<string, unknown>>

/** By the version that it takes: a plain value of that version in, one of the next version out. */
const steps: Readonly<Record<number, (old: Plain) => Plain>> = {
  // what version 2 added has defaults: measurements, photos, checks, proof and hand-back
  1: (old) => ({ ...old, version: 2 }),
  // version 3 has one price book: rates and prices of the assumptions went to the shop's, materials by the lift are gone;
  // a card that lay flat did not say which side was up; a wash is followed by a drying, which was a bake before
  2: (old) => ({ ...old, ...withOnePriceBook(old), ...withSides(old), ...withDryings(old), version: 3 }),
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

const MOVED: Readonly<Record<string, string>> = {
  hourlyRate: 'hourlyRate',
  corePrice: 'priceCore',
  memoryPrice: 'priceMemory',
  otherPrice: 'priceOther',
  minutesPerComeback: 'minutesPerComeback',
  comebackGoodwill: 'comebackGoodwill',
}
const DROPPED = new Set(['materialsPerMemoryLift', 'materialsPerCoreLift', 'materialsPerOtherLift'])

/** What the shop's own prices said already stands over what the assumptions said. */
function withOnePriceBook(old: Plain): Plain {
  const assumptions = plainAt(old, 'assumptions')
  const cost = plainAt(assumptions, 'cost')
  if (assumptions === undefined || cost === undefined) return {}
  const figures = Object.entries(cost)
  const moved = figures.flatMap(([name, value]) => {
    const to = MOVED[name]
    return to === undefined ? [] : [[to, value] as const]
  })
  const kept = figures.filter(([name]) => MOVED[name] === undefined && !DROPPED.has(name))
  const { cost: _, ...others } = assumptions
  const shop = plainAt(old, 'shop') ?? {}
  const money = { ...Object.fromEntries(moved), ...plainAt(shop, 'money') }
  return {
    assumptions: kept.length === 0 ? others : { ...others, cost: Object.fromEntries(kept) },
    ...(moved.length === 0 ? {} : { shop: { ...shop, money } }),
  }
}

const LONGEST_ACCOUNT = 4000
const LAY_FLAT = say('It lay flat.')

function withSides(old: Plain): Plain {
  const arrival = plainAt(old, 'arrival')
  if (arrival?.['mounted'] !== 'flat') return {}
  const account = typeof arrival['account'] === 'string' ? arrival['account'] : ''
  const noted = `${account} ${LAY_FLAT}`.trim()
  return { arrival: { ...arrival, mounted: 'unknown', account: noted.length > LONGEST_ACCOUNT ? account : noted } }
}

/** A bake that was ticked as done dried the board as well. */
function withDryings(old: Plain): Plain {
  const { ticks } = old
  if (!Array.isArray(ticks)) return {}
  const both = ticks.flatMap((tick: unknown) =>
    isPlain(tick) && tick['action'] === 'bake' && tick['outcome'] === 'done'
      ? [tick, { ...tick, action: 'dry', minutes: 0 }]
      : [tick],
  )
  return { ticks: both }
}

function plainAt(value: Plain | undefined, key: string): Plain | undefined {
  const found: unknown = value?.[key]
  return isPlain(found) ? found : undefined
}

const isPlain = (value: unknown): value is Plain => typeof value === 'object' && value !== null && !Array.isArray(value)
