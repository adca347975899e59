/** The shelf: demo cases, boards and reports that are built into the app, each loaded when it is asked for. */
import { say } from '../../base/index.ts'

export interface ShelfCase {
  readonly name: string
  readonly title: string
  readonly text: () => Promise<string>
}

export interface Shelf {
  readonly cases: readonly ShelfCase[]
  readonly boards: readonly string[]
  /** A file as a case names it, relative to the case file; undefined where the app has no such file. */
  readonly open: (path: string) => Promise<Blob | undefined>
}

const lastName = (path: string): string => path.slice(path.lastIndexOf('/') + 1)

// Files beside the script, not in it: what is fetched as text need not be read as code first.
const boardFiles = import.meta.glob<string>('../../../boards/*.json', {
  query: '?url&no-inline',
  import: 'default',
  eager: true,
})
const caseFiles = import.meta.glob<string>('../../../demo-data/*.case.json', {
  query: '?url&no-inline',
  import: 'default',
  eager: true,
})
const reportFiles = import.meta.glob<string>('../../../demo-data/**/*.{txt,csv,log,tsv}', {
  query: '?url&no-inline',
  import: 'default',
  eager: true,
})

async function fetched(address: string): Promise<Blob> {
  const response = await fetch(address)
  if (!response.ok) throw new Error(`${lastName(address)} could not be loaded (${response.status})`)
  return response.blob()
}

/** The demo cases in the order of the menu; the first one opens at the first start. */
const DEMOS: readonly { readonly name: string; readonly title: string }[] = [
  { name: 'wept-fitting', title: say('A fitting leaked, two packages fail') },
  { name: 'tired-rows', title: say('One package with bad rows, no accident') },
  { name: 'slipped-tool', title: say('A tool slipped near a power stage') },
  { name: 'returned-card', title: say('Worked on, tested again') },
]

export function builtInShelf(): Shelf {
  const byName = new Map(Object.entries({ ...boardFiles, ...reportFiles }).map(([path, at]) => [lastName(path), at]))
  const caseByName = new Map(Object.entries(caseFiles).map(([path, at]) => [lastName(path), at]))
  return {
    cases: DEMOS.flatMap(({ name, title }) => {
      const at = caseByName.get(`${name}.case.json`)
      return at === undefined ? [] : [{ name, title, text: async () => (await fetched(at)).text() }]
    }),
    boards: Object.keys(boardFiles)
      .map(lastName)
      .filter((name) => name !== 'schema.json'),
    open: async (path) => {
      const at = byName.get(lastName(path))
      return at === undefined ? undefined : fetched(at)
    },
  }
}
