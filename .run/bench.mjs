// `npm run bench`: the measurements of tests/bench, as JSON on stdout. Names after the command choose some of them.
import { ensureInstalled, runInstalled } from './install.mjs'

ensureInstalled()
process.exit(runInstalled('tsx', ['tests/bench/main.ts', ...process.argv.slice(2)]))
