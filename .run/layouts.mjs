// `npm run layouts -- --seed N --count M`: report texts from a seed on, each read and held to its truth; counts as JSON.
import { ensureInstalled, runInstalled } from './install.mjs'

ensureInstalled()
process.exit(runInstalled('tsx', ['tests/fixtures/layouts/generator/main.ts', ...process.argv.slice(2)]))
