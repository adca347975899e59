import { speakAsWished } from './language.ts'

// A reader that has seen enough (`| head`) is no fault.
process.stdout.on('error', (cause: NodeJS.ErrnoException) => {
  if (cause.code === 'EPIPE') process.exit(0)
  throw cause
})
const words = process.argv.slice(2)
// Before the rooms are loaded: what they hold as constants is said then.
speakAsWished(words, process.env)
const [{ runCommandLine }, { nodeIo }] = await Promise.all([import('./run.ts'), import('./io.ts')])
process.exitCode = await runCommandLine(words, nodeIo)
