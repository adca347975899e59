/** What the command line needs of the machine, handed in so that tests can run a verb without a process. */
import { createReadStream, writeFileSync } from 'node:fs'
import { open } from 'node:fs/promises'
import { dirname, isAbsolute, join } from 'node:path'
import { bad, good, type Result } from '../base/index.ts'

export interface Io {
  readonly out: (text: string) => void
  readonly err: (text: string) => void
  /** The bytes of a file, or of standard input for `-`. */
  readonly open: (path: string) => Promise<Result<AsyncIterable<Uint8Array>>>
  readonly write: (path: string, text: string) => Result<undefined>
  readonly writeBytes: (path: string, bytes: Uint8Array) => Result<undefined>
}

function writeFile(path: string, content: string | Uint8Array): Result<undefined> {
  try {
    writeFileSync(path, content)
    return good(undefined)
  } catch (cause) {
    return bad({ path, found: reasonOf(cause), expected: 'a place that can be written to' })
  }
}

export const nodeIo: Io = {
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
  open: async (path) => {
    if (path === '-') return good(process.stdin)
    try {
      const handle = await open(path, 'r')
      const isFolder = (await handle.stat()).isDirectory()
      await handle.close()
      return isFolder ? bad({ path, found: 'a folder', expected: 'a file' }) : good(createReadStream(path))
    } catch (cause) {
      return bad({ path, found: reasonOf(cause), expected: 'a file that can be read', todo: 'Check the path.' })
    }
  },
  write: writeFile,
  writeBytes: writeFile,
}

const reasonOf = (cause: unknown): string =>
  cause instanceof Error ? cause.message.replace(/^E[A-Z]+: /, '') : String(cause)

/** A path that a file names, as seen from that file. */
export const besides = (file: string, path: string): string =>
  isAbsolute(path) || file === '-' ? path : join(dirname(file), path)

/** All of a file as text (UTF-8). */
export async function readAll(io: Io, path: string): Promise<Result<string>> {
  const bytes = await io.open(path)
  if (!bytes.ok) return bytes
  const decoder = new TextDecoder()
  let text = ''
  try {
    for await (const chunk of bytes.value) text += decoder.decode(chunk, { stream: true })
  } catch (cause) {
    return bad({ path, found: reasonOf(cause), expected: 'a file that can be read' })
  }
  return good(text + decoder.decode())
}

/** All of a file as bytes. */
export async function readBytes(io: Io, path: string): Promise<Result<Uint8Array>> {
  const opened = await io.open(path)
  if (!opened.ok) return opened
  const chunks: Uint8Array[] = []
  try {
    for await (const chunk of opened.value) chunks.push(chunk)
  } catch (cause) {
    return bad({ path, found: reasonOf(cause), expected: 'a file that can be read' })
  }
  const all = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0))
  let filled = 0
  for (const chunk of chunks) {
    all.set(chunk, filled)
    filled += chunk.length
  }
  return good(all)
}
