/** What can be wrong with the browser's storage, in words and with what to do. */
import type { Fault } from '../../base/index.ts'

const SHELF = 'the shelf of cases'

export const blockedByOlder: Fault = {
  path: SHELF,
  found: 'an older Liftmap in another tab still holds the shelf',
  expected: 'a shelf that this one can bring up to date',
  todo: 'Close or load anew the other tabs with Liftmap; saving goes on by itself then.',
}

export const noStorage: Fault = {
  path: SHELF,
  found: 'a browser that offers no storage to this page, as in a private window',
  expected: 'storage in which cases can be kept',
  todo: 'Cases last only as long as this page: export them before you close it.',
}

const full: Fault = {
  path: SHELF,
  found: 'no room left in the browser’s storage',
  expected: 'room for this change',
  todo: 'Export the case, then make room on the disk; cases that you delete free theirs an hour later, when Liftmap is opened again.',
}

const ofNewer: Fault = {
  path: SHELF,
  found: 'a newer Liftmap has brought the shelf up to its own form',
  expected: 'the shelf as this Liftmap knows it',
  todo: 'Export the case, then load this page anew to get the newer Liftmap.',
}

/** Any error that the database throws, as a fault. */
export function faultOfStorage(reason: unknown): Fault {
  const name = nameOf(reason)
  if (name === 'QuotaExceededError') return full
  if (name === 'VersionError') return ofNewer
  if (name === 'SecurityError') return noStorage
  const message = reason instanceof Error || reason instanceof DOMException ? reason.message : String(reason)
  return {
    path: SHELF,
    found: message === '' ? name : `${name}: ${message}`.slice(0, 300),
    expected: 'storage that can be read and written',
    todo: 'Export the case, then load this page anew. A private window may offer no storage.',
  }
}

const nameOf = (reason: unknown): string =>
  reason instanceof Error || reason instanceof DOMException ? reason.name : 'an error'
