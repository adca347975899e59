/** The rule of the rooms: which room may import from which, and only through its face. */
import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join, relative, resolve } from 'node:path'

const ORDER = [
  'base',
  'board',
  'trace',
  'report',
  'measure',
  'spill',
  'suspects',
  'heat',
  'plan',
  'rehearsal',
  'case',
] as const
const OUTER: Record<string, readonly string[]> = {
  workers: [...ORDER],
  view: [...ORDER, 'workers'],
  cli: [...ORDER],
}
const PURE_FORBIDDEN = /^(node:|react$|react-dom|react\/|zustand|@base-ui|lucide-react|@fontsource|commander$)/

/** Folders inside of a room, each importing only from those before it; files at a room's top stand beside all of them. */
const INSIDE: Record<string, readonly string[]> = {
  report: ['text', 'names', 'rows', 'count', 'hand', 'guess'],
  spill: ['substance', 'ground', 'flow', 'sum'],
  plan: ['order', 'steps', 'log'],
  // biome-ignore format: one line a layer
  view: [
    'look', 'meter', 'sheet', 'shelf', 'version',
    'stores', 'actions', 'controls', 'figures', 'speech', 'camera',
    'quote', 'caselist', 'shop-record', 'trace', 'own-board', 'start', 'stations', 'help',
    'panels', 'practice', 'stock', 'pages', 'header',
  ],
}

export interface SourceFile {
  /** Path below `src`, with forward slashes. */
  readonly path: string
  readonly text: string
}

/** Every TypeScript file below a folder. */
export function sourceFilesBelow(folder: string): SourceFile[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .map((path) => ({ path: relative(folder, path).replaceAll('\\', '/'), text: readFileSync(path, 'utf8') }))
}

/** One sentence for each import that breaks the rule. */
export function brokenRoomRules(files: readonly SourceFile[]): string[] {
  return files.flatMap((file) => importsOf(file.text).flatMap((target) => judgeImport(file.path, target)))
}

function importsOf(text: string): string[] {
  const found = text.matchAll(
    /(?:^|\n)\s*(?:import|export)\b[^'"\n;]*(?:\n[^'"\n;]*)*?['"]([^'"\n]+)['"]|\bimport\(\s*['"]([^'"]+)['"]\s*\)/g,
  )
  return [...found].map((match) => match[1] ?? match[2] ?? '').filter((target) => target !== '')
}

function judgeImport(path: string, target: string): string[] {
  const room = path.split('/')[0] ?? ''
  const pure = ORDER.some((name) => name === room)
  if (!target.startsWith('.')) {
    return pure && PURE_FORBIDDEN.test(target)
      ? [`${path} imports ${target}: a pure room knows no screen and no machine`]
      : []
  }
  const reached = relative(resolve('/src'), resolve('/src', dirname(path), target)).replaceAll('\\', '/')
  if (reached.startsWith('..')) return []
  const otherRoom = reached.split('/')[0] ?? ''
  if (otherRoom === room) return judgeInside(path, reached)
  const allowed = pure
    ? ORDER.slice(
        0,
        ORDER.findIndex((name) => name === room),
      )
    : (OUTER[room] ?? [])
  if (!allowed.some((name) => name === otherRoom))
    return [`${path} imports from ${otherRoom}, which is not to the left of ${room}`]
  const throughFace = reached === `${otherRoom}/index.ts` || otherRoom === 'workers' || reached.endsWith('.json')
  return throughFace ? [] : [`${path} imports ${reached} past the face of ${otherRoom}`]
}

function judgeInside(path: string, reached: string): string[] {
  const [room = '', folder = '', ...below] = path.split('/')
  const order = INSIDE[room]
  const other = reached.split('/')[1] ?? ''
  if (order === undefined || below.length === 0 || other.includes('.')) return []
  return order.indexOf(other) <= order.indexOf(folder)
    ? []
    : [`${path} imports from ${other}, which is not before ${folder}`]
}
