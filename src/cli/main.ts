import { nodeIo } from './io.ts'
import { runCommandLine } from './run.ts'

process.exitCode = await runCommandLine(process.argv.slice(2), nodeIo)
