// `npm start`: installs what is missing, builds the application, serves it on a local port and prints the address.
import { ensureInstalled, root } from './install.mjs'

ensureInstalled()
const { build, preview } = await import('vite')
process.chdir(root)
console.log('Building …')
await build({ logLevel: 'warn' })
const FIRST_PORT = 4870
const server = await preview({
  logLevel: 'silent',
  preview: { host: '127.0.0.1', port: FIRST_PORT, strictPort: false },
})
const address = server.resolvedUrls?.local[0] ?? `http://127.0.0.1:${FIRST_PORT}/`
console.log(`Liftmap is at ${address} (Ctrl+C stops it)`)
