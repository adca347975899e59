/** One case as one file, there and back. */
export { withFreshNames } from './fresh-names.ts'
export { isReportPath, namedFiles, reportPath } from './names.ts'
export { type CaseFiles, packCase } from './pack.ts'
export { isZip, unpackCase, type UnpackedCase } from './unpack.ts'
