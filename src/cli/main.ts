import { nodeIo } from './io.ts'
import { runCommandLine } from './run.ts'

// A reader that has seen enough (`| head`) is no fault.
process.stdout.on('error', (cause: NodeJS.ErrnoException) => {
  if (cause.code === 'EPIPE') process.exit(0)
  throw cause
})
process.exitCode = await runCommandLine(process.argv.slice(2), nodeIo)
