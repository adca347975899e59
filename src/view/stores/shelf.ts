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

const boardTexts = import.meta.glob<string>('../../../boards/*.json', { query: '?raw', import: 'default' })
const caseTexts = import.meta.glob<string>('../../../demo-data/*.case.json', { query: '?raw', import: 'default' })
const reportTexts = import.meta.glob<string>('../../../demo-data/**/*.{txt,csv,log,tsv}', {
  query: '?raw',
  import: 'default',
})

/** The demo cases in the order of the menu; the first one opens at the first start. */
const DEMOS: readonly { readonly name: string; readonly title: string }[] = [
  { name: 'wept-fitting', title: say('A fitting leaked, two packages fail') },
  { name: 'tired-rows', title: say('One package with bad rows, no accident') },
  { name: 'slipped-tool', title: say('A tool slipped near a power stage') },
  { name: 'returned-card', title: say('Worked on, tested again') },
]

export function builtInShelf(): Shelf {
  const byName = new Map(
    Object.entries({ ...boardTexts, ...reportTexts }).map(([path, load]) => [lastName(path), load] as const),
  )
  const caseByName = new Map(Object.entries(caseTexts).map(([path, load]) => [lastName(path), load] as const))
  return {
    cases: DEMOS.flatMap(({ name, title }) => {
      const text = caseByName.get(`${name}.case.json`)
      return text === undefined ? [] : [{ name, title, text }]
    }),
    boards: Object.keys(boardTexts)
      .map(lastName)
      .filter((name) => name !== 'schema.json'),
    open: async (path) => {
      const load = byName.get(lastName(path))
      return load === undefined ? undefined : new Blob([await load()])
    },
  }
}
