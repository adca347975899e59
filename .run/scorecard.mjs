// `npm run scorecard`: simulated cards with a known truth through the whole reasoning, and how right it was.
import { ensureInstalled, runInstalled } from './install.mjs'

ensureInstalled()
process.exit(runInstalled('tsx', ['tests/rehearsal/run/main.ts', ...process.argv.slice(2)]))
