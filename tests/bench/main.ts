/** Runs the measurements one after the other and prints one JSON object: ratios taken in one run, and what they compare. */
import { cpus } from 'node:os'

const benches: Record<string, () => Promise<object>> = {
  decode: async () => (await import('./decode.bench.ts')).benchDecode(),
  report: async () => (await import('./report.bench.ts')).benchReport(),
  chain: async () => (await import('./chain.bench.ts')).benchChain(),
  spill: async () => (await import('./spill.bench.ts')).benchSpill(),
  edit: async () => (await import('./edit.bench.ts')).benchEdit(),
  kicad: async () => (await import('./kicad.bench.ts')).benchKicad(),
  heat: async () => (await import('./heat.bench.ts')).benchHeat(),
  drawing: async () => (await import('./drawing.bench.ts')).benchDrawing(),
  start: async () => (await import('./start.bench.ts')).benchStart(),
  plan: async () => (await import('./plan.bench.ts')).benchPlan(),
}

const wanted = process.argv.slice(2)
const unknown = wanted.filter((name) => !Object.hasOwn(benches, name))
if (unknown.length > 0) {
  console.error(`Found ${unknown.join(', ')}, expected some of ${Object.keys(benches).join(', ')}.`)
  process.exit(2)
}

const results: Record<string, object> = {}
for (const [name, run] of Object.entries(benches)) {
  if (wanted.length > 0 && !wanted.includes(name)) continue
  console.error(`measuring ${name} …`)
  results[name] = await run()
}
console.log(JSON.stringify({ node: process.version, cores: cpus().length, ...results }, null, 2))
