/** A case as one file: plain JSON where nothing lies beside it, else a zip file with photos and long reports. */
import { good, type Result, say } from '../../base/index.ts'
import { type Case, packCase } from '../../case/index.ts'

export interface CaseFile {
  readonly name: string
  readonly bytes: Blob
}

interface Held {
  readonly caseFile: Case
  /** Names of photos and reports whose bytes are not on this machine. */
  readonly leftOut: readonly string[]
}

/** The case without what it names and nobody has: a file that names more than it holds is refused elsewhere. */
export function holding(whole: Case, files: ReadonlyMap<string, Blob>): Held {
  const photos = whole.photos.filter(({ id }) => files.has(id))
  const reports = whole.reports.filter(({ path }) => path === undefined || files.has(path))
  const leftOut = [
    ...whole.photos.filter((photo) => !photos.includes(photo)).map(({ name }) => name),
    ...whole.reports.filter((report) => !reports.includes(report)).map(({ name }) => name),
  ]
  return { caseFile: { ...whole, photos, reports, marks: unpinned(whole.marks, photos) }, leftOut }
}

/** A mark does not name a photo that is not in the file. */
const unpinned = (marks: Case['marks'], photos: Case['photos']): Case['marks'] =>
  marks.map((mark) => {
    if (!('photo' in mark) || photos.some(({ id }) => id === mark.photo)) return mark
    const { photo: _, ...rest } = mark
    return rest
  })

/** @param files photos and long reports that the case names, by their keys */
export async function fileOfCase(caseFile: Case, files: ReadonlyMap<string, Blob>): Promise<Result<CaseFile>> {
  const name = fileName(caseFile.card ?? caseFile.title)
  if (files.size === 0)
    return good({ name: `${name}.case.json`, bytes: new Blob([jsonOf(caseFile)], { type: 'application/json' }) })
  const contents = new Map<string, Uint8Array>()
  for (const [key, blob] of files) contents.set(key, new Uint8Array(await blob.arrayBuffer()))
  const packed = packCase(caseFile, contents)
  if (!packed.ok) return packed
  const bytes = new Blob([new Uint8Array(packed.value)], { type: 'application/zip' })
  return good({ name: `${name}.case.zip`, bytes })
}

export const jsonOf = (caseFile: Case): string => `${JSON.stringify(caseFile, undefined, 2)}\n`

const fileName = (title: string): string =>
  title
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '') || say('case')
