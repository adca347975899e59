/** One case as one file, there and back; and files of a board in one. */
export { withFreshNames } from './fresh-names.ts'
export { isReportPath, namedFiles, reportPath } from './names.ts'
export { type CaseFiles, packCase } from './pack.ts'
export { holdsCase, type PackedFile, unpackFiles } from './packed-files.ts'
export { isZip } from './is-zip.ts'
export { unpackCase, type UnpackedCase } from './unpack.ts'
