/**
 * Real board files out of Debian packages such as `kicad-demos`, and out of the sources of one, fetched into `node_modules/.cache/kicad-demos` without root.
 * Nothing of them is kept in the repository. The mirror is the one that the system's own apt sources name.
 */
import { execFile } from 'node:child_process'
import { createHash } from 'node:crypto'
import { createReadStream, existsSync } from 'node:fs'
import { mkdir, mkdtemp, readdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises'
import { basename, dirname, join, resolve } from 'node:path'
import { promisify } from 'node:util'

const run = promisify(execFile)
const CACHE = resolve('node_modules/.cache/kicad-demos')
const COMMAND_TIMEOUT_MS = 240_000
const LOCK_WAIT_MS = 280_000
const LOCK_STALE_MS = 250_000

export interface DebianPackage {
  readonly name: string
  readonly version: string
  readonly suite: string
  /** Path of the wanted file inside the package; a folder where the package is of sources. */
  readonly path: string
  /** Set for a package of sources: what its archive's first folder is called. */
  readonly sourceFolder?: string
}

export type Fetched = { readonly ok: true; readonly path: string } | { readonly ok: false; readonly reason: string }

const fetches = new Map<string, Promise<Fetched>>()

/** Path of one file of a package, downloaded at the first call and kept; or why it can't be had. */
export function debianFile(wanted: DebianPackage): Promise<Fetched> {
  const key = `${wanted.version} ${wanted.path}`
  const running = fetches.get(key) ?? fetchOnce(wanted)
  fetches.set(key, running)
  return running
}

/** Hexadecimal SHA-256 of a file. */
export async function sha256Of(path: string): Promise<string> {
  const hash = createHash('sha256')
  for await (const chunk of createReadStream(path)) hash.update(chunk)
  return hash.digest('hex')
}

async function fetchOnce(wanted: DebianPackage): Promise<Fetched> {
  const folder = join(CACHE, wanted.version.replaceAll(/[^\w.+-]/g, '_'))
  const path = join(folder, basename(wanted.path))
  if (existsSync(path)) return { ok: true, path }
  await mkdir(folder, { recursive: true })
  const unlock = await lock(join(folder, 'lock'))
  const work = await mkdtemp(join(folder, 'work-'))
  try {
    if (existsSync(path)) return { ok: true, path }
    const from = wanted.sourceFolder === undefined ? '' : wanted.sourceFolder
    if (wanted.sourceFolder === undefined) await unpack(await download(wanted, work), wanted.path, work)
    else await unpackSource(await downloadSource(wanted, work), join(from, wanted.path), work)
    await rename(join(work, from, wanted.path), path)
    return { ok: true, path }
  } catch (error) {
    return { ok: false, reason: `${wanted.name} ${wanted.version} can't be had: ${firstLines(error)}` }
  } finally {
    await rm(work, { recursive: true, force: true })
    await unlock()
  }
}

/** First with the system's package lists as they are, then with lists of our own from the same mirror. */
async function download(wanted: DebianPackage, work: string): Promise<string> {
  const pinned = `${wanted.name}=${wanted.version}`
  try {
    await apt(['download', pinned], work)
  } catch {
    const options = await ownAptOptions(wanted.suite, work)
    await apt([...options, 'update'], work)
    await apt([...options, 'download', pinned], work)
  }
  const archive = (await readdir(work)).find((name) => name.endsWith('.deb'))
  if (archive === undefined) throw new Error('apt-get downloaded nothing')
  return join(work, archive)
}

/** The makers' own archive of a package of sources. */
async function downloadSource(wanted: DebianPackage, work: string): Promise<string> {
  const options = await ownAptOptions(wanted.suite, work, 'deb-src')
  await apt([...options, 'update'], work)
  await apt([...options, '--download-only', 'source', `${wanted.name}=${wanted.version}`], work)
  const archive = (await readdir(work)).find((name) => /\.orig\.tar\.\w+$/.test(name))
  if (archive === undefined) throw new Error('apt-get downloaded no sources')
  return join(work, archive)
}

async function unpackSource(archive: string, path: string, folder: string): Promise<void> {
  await run('tar', ['-x', '-C', folder, '-f', archive, path], { timeout: COMMAND_TIMEOUT_MS })
}

async function apt(args: readonly string[], cwd: string): Promise<void> {
  await run('apt-get', ['-q', '-o', 'Acquire::Retries=2', '-o', 'Acquire::http::Timeout=20', ...args], {
    cwd,
    timeout: COMMAND_TIMEOUT_MS,
  })
}

async function unpack(archive: string, path: string, folder: string): Promise<void> {
  const script = 'dpkg-deb --fsys-tarfile "$1" | tar -x -C "$2" "./$3"'
  await run('sh', ['-c', script, 'sh', archive, folder, path], { timeout: COMMAND_TIMEOUT_MS })
}

async function ownAptOptions(suite: string, work: string, types = 'deb'): Promise<string[]> {
  const mirror = await debianMirror()
  if (mirror === undefined) throw new Error("the system's apt sources name no Debian mirror")
  const signed = mirror.signedBy === undefined ? [] : [`Signed-By: ${mirror.signedBy}`]
  const source = [`Types: ${types}`, `URIs: ${mirror.uri}`, `Suites: ${suite}`, 'Components: main', ...signed, '']
  const sources = join(work, 'own.sources')
  await writeFile(sources, source.join('\n'))
  await Promise.all(
    ['lists/partial', 'state', 'cache/archives/partial'].map((name) => mkdir(join(work, name), { recursive: true })),
  )
  return Object.entries({
    'Dir::Etc::sourcelist': sources,
    'Dir::Etc::sourceparts': '/dev/null',
    'Dir::State': join(work, 'state'),
    'Dir::State::lists': join(work, 'lists'),
    'Dir::Cache': join(work, 'cache'),
  }).flatMap(([name, value]) => ['-o', `${name}=${value}`])
}

interface Mirror {
  readonly uri: string
  readonly signedBy: string | undefined
}

/** The first archive of Debian itself among the system's apt sources, security updates aside. */
async function debianMirror(): Promise<Mirror | undefined> {
  const parts = '/etc/apt/sources.list.d'
  const names = existsSync(parts) ? (await readdir(parts)).toSorted().map((name) => join(parts, name)) : []
  for (const path of ['/etc/apt/sources.list', ...names]) {
    if (!existsSync(path)) continue
    const text = await readFile(path, 'utf8')
    const found = (path.endsWith('.sources') ? stanzaMirrors(text) : lineMirrors(text)).find(({ uri }) =>
      /\/debian\/?$/.test(uri),
    )
    if (found) return found
  }
  return undefined
}

function stanzaMirrors(text: string): Mirror[] {
  return text.split(/\n\s*\n/).flatMap((stanza) => {
    const field = (name: string): string | undefined =>
      new RegExp(`^${name}:[ \\t]*(.+)$`, 'im').exec(stanza)?.[1]?.trim()
    return (field('URIs') ?? '').split(/\s+/).map((uri) => ({ uri, signedBy: field('Signed-By') }))
  })
}

function lineMirrors(text: string): Mirror[] {
  return text.split('\n').flatMap((line) => {
    const found = /^\s*deb\s+(?:\[([^\]]*)\]\s+)?(\S+)\s/.exec(line)
    const uri = found?.[2]
    return uri === undefined ? [] : [{ uri, signedBy: /signed-by=(\S+)/.exec(found?.[1] ?? '')?.[1] }]
  })
}

/** A folder made by the one who holds the lock; one that was left behind is taken over. */
async function lock(folder: string): Promise<() => Promise<void>> {
  for (const begun = Date.now(); Date.now() - begun < LOCK_WAIT_MS; ) {
    try {
      await mkdir(folder)
      return () => rm(folder, { recursive: true, force: true })
    } catch {
      const age = await stat(folder).then(
        (found) => Date.now() - found.mtimeMs,
        () => 0,
      )
      if (age > LOCK_STALE_MS) await rm(folder, { recursive: true, force: true })
      await new Promise((done) => setTimeout(done, 250))
    }
  }
  throw new Error(`${dirname(folder)} is locked`)
}

function firstLines(error: unknown): string {
  const text = error instanceof Error ? error.message : String(error)
  return text
    .split('\n')
    .filter((line) => line.trim() !== '')
    .slice(0, 4)
    .join(' ')
}
