/** What the command line needs of the machine, handed in so that tests can run a verb without a process. */
import {
  closeSync,
  constants,
  createReadStream,
  lstatSync,
  openSync,
  type Stats,
  statSync,
  writeFileSync,
} from 'node:fs'
import { open, stat } from 'node:fs/promises'
import { dirname, isAbsolute, join } from 'node:path'
import { bad, good, type Result, say } from '../base/index.ts'

export interface Io {
  readonly out: (text: string) => void
  readonly err: (text: string) => void
  /** The bytes of a file, or of standard input for `-`. */
  readonly open: (path: string) => Promise<Result<AsyncIterable<Uint8Array>>>
  /** A file that another file names: a regular one, no link to a device or a pipe, and of a stated size at most. */
  readonly openNamed: (path: string) => Promise<Result<AsyncIterable<Uint8Array>>>
  /** Its length, where it is a plain file. */
  readonly sizeOf?: (path: string) => number | undefined
  readonly write: (path: string, content: string | Uint8Array, wish: WriteWish) => Result<undefined>
}

export interface WriteWish {
  /** A file that is there already may be written over. */
  readonly force: boolean
  /** Files that were read for it: none of them is ever written over. */
  readonly inputs: readonly string[]
}

const NAMED_AT_MOST_BYTES = 2 ** 31
/** Of a file at a time: fewer and longer pieces than the usual 64 KiB. */
const CHUNK_BYTES = 2 ** 18

function writeFile(path: string, content: string | Uint8Array, { force, inputs }: WriteWish): Result<undefined> {
  const there = lstatSync(path, { throwIfNoEntry: false })
  if (there?.isSymbolicLink() === true)
    return bad({
      path,
      found: say('a link to another file'),
      expected: say('a file of its own'),
      todo: say('Name another.'),
    })
  if (there !== undefined && inputs.some((input) => isSameFile(input, there)))
    return bad({
      path,
      found: say('the file that was read'),
      expected: say('another file'),
      todo: say('Name another.'),
    })
  if (there !== undefined && !force)
    return bad({
      path,
      found: say('a file that is there already'),
      expected: say('a new file'),
      todo: say('Name another, or add --force.'),
    })
  const { O_WRONLY, O_CREAT, O_TRUNC, O_EXCL, O_NOFOLLOW } = constants
  try {
    const file = openSync(path, O_WRONLY | O_CREAT | (O_NOFOLLOW ?? 0) | (force ? O_TRUNC : O_EXCL), 0o666)
    try {
      writeFileSync(file, content)
    } finally {
      closeSync(file)
    }
    return good(undefined)
  } catch (cause) {
    return bad({ path, found: reasonOf(cause), expected: say('a place that can be written to') })
  }
}

function isSameFile(path: string, { dev, ino }: Stats): boolean {
  const other = path === '-' ? undefined : statSync(path, { throwIfNoEntry: false })
  return other?.dev === dev && other.ino === ino
}

async function openNamed(path: string): Promise<Result<AsyncIterable<Uint8Array>>> {
  try {
    const found = await stat(path)
    if (!found.isFile())
      return bad({
        path,
        found: found.isDirectory() ? say('a folder') : say('a device or a pipe'),
        expected: say('a regular file'),
      })
    if (found.size > NAMED_AT_MOST_BYTES)
      return bad({
        path,
        found: say('{size} bytes', { size: found.size }),
        expected: say('at most {NAMEDATMOSTBYTES} bytes', { NAMEDATMOSTBYTES: NAMED_AT_MOST_BYTES }),
      })
    return good(createReadStream(path, { highWaterMark: CHUNK_BYTES }))
  } catch (cause) {
    return bad({ path, found: reasonOf(cause), expected: say('a file that can be read'), todo: say('Check the path.') })
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
      return isFolder
        ? bad({ path, found: say('a folder'), expected: say('a file') })
        : good(createReadStream(path, { highWaterMark: CHUNK_BYTES }))
    } catch (cause) {
      return bad({
        path,
        found: reasonOf(cause),
        expected: say('a file that can be read'),
        todo: say('Check the path.'),
      })
    }
  },
  openNamed,
  sizeOf: (path) => (path === '-' ? undefined : statSync(path, { throwIfNoEntry: false })?.size),
  write: writeFile,
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
    return bad({ path, found: reasonOf(cause), expected: say('a file that can be read') })
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
    return bad({ path, found: reasonOf(cause), expected: say('a file that can be read') })
  }
  const all = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0))
  let filled = 0
  for (const chunk of chunks) {
    all.set(chunk, filled)
    filled += chunk.length
  }
  return good(all)
}
