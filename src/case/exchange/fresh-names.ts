/** An imported case gets names of its own for its files, so that it never takes the place of another case's photo. */
import type { Case } from '../schema.ts'
import { namedFiles, reportPath } from './names.ts'
import type { UnpackedCase } from './unpack.ts'

/** @param newId small letters, digits and hyphens, another at each call */
export function withFreshNames({ caseFile, files }: UnpackedCase, newId: () => string): UnpackedCase {
  const fresh = new Map(
    namedFiles(caseFile).map(({ key, photo }) => [key, photo === undefined ? reportPath(newId()) : newId()]),
  )
  const named = (key: string): string => fresh.get(key) ?? key
  const renamed: Case = {
    ...caseFile,
    photos: caseFile.photos.map((photo) => ({ ...photo, id: named(photo.id) })),
    marks: caseFile.marks.map((mark) =>
      'photo' in mark && mark.photo !== undefined ? { ...mark, photo: named(mark.photo) } : mark,
    ),
    reports: caseFile.reports.map((report) =>
      report.path === undefined ? report : { ...report, path: named(report.path) },
    ),
  }
  return { caseFile: renamed, files: new Map([...files].map(([key, bytes]) => [named(key), bytes])) }
}
