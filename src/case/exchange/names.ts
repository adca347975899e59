/** How the entries of a packed case are called, and what their bytes must begin with. */
import type { Case, Photo } from '../schema.ts'

export const CASE_ENTRY = 'case.json'
/** Packers of other makers may list the folders too; they hold nothing. */
export const FOLDERS: readonly string[] = ['photos/', 'reports/']

const extensions: Readonly<Record<Photo['type'], string>> = {
  'image/jpeg': 'jpg',
  'image/png': 'png',
  'image/webp': 'webp',
}

const photoEntry = (photo: Photo): string => `photos/${photo.id}.${extensions[photo.type]}`

/** A long report lies beside the case under this name: in the packed case, and among the files of the shelf. */
export const reportPath = (id: string): string => `reports/${id}.txt`

/**
 * Refuses anything but one folder, an id of up to 80 small letters, digits and dashes, and `.txt`: no way out of the
 * folder.
 */
export const isReportPath = (path: string): boolean => /^reports\/[a-z0-9-]{1,80}\.txt$/.test(path)

export interface NamedFile {
  /** Under which the bytes are kept: a photo's id, or the path of a report. */
  readonly key: string
  readonly entry: string
  /** Where the case names it. */
  readonly path: string
  readonly photo?: Photo
}

/** Every file that a case names beside itself. */
export function namedFiles({ photos, reports }: Case): NamedFile[] {
  return [
    ...photos.map((photo, i) => ({ key: photo.id, entry: photoEntry(photo), path: `$.photos[${i}]`, photo })),
    ...reports.flatMap(({ path }, i) =>
      path === undefined ? [] : [{ key: path, entry: path, path: `$.reports[${i}].path` }],
    ),
  ]
}
