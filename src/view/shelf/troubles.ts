/** What can be wrong with the browser's storage, in words and with what to do. */
import { type Fault, say } from '../../base/index.ts'

const SHELF = say('the shelf of cases')

export const blockedByOlder: Fault = {
  path: SHELF,
  found: say('an older Liftmap in another tab still holds the shelf'),
  expected: say('a shelf that this one can bring up to date'),
  todo: say(
    'Close or reload the other tabs with Liftmap; saving goes on by itself then. What you type stays in this page meanwhile.',
  ),
}

export const noStorage: Fault = {
  path: SHELF,
  found: say('a browser that offers no storage to this page, as in a private window'),
  expected: say('storage in which cases can be kept'),
  todo: say('Cases last only as long as this page: export them before you close it.'),
}

/** Neither opened nor refused: the browser waits for another tab, or for itself. */
export const notAnswering: Fault = {
  path: SHELF,
  found: say('no answer from the browser’s storage; another tab may be holding it'),
  expected: say('storage that answers'),
  todo: say(
    'Close the other tabs with Liftmap; saving goes on by itself then. What you type stays in this page meanwhile.',
  ),
}

const full: Fault = {
  path: SHELF,
  found: say('no room left in the browser’s storage'),
  expected: say('room for this change'),
  todo: say(
    'Export the case, then make room on the disk; cases that you delete free theirs an hour later, when Liftmap is opened again.',
  ),
}

const ofNewer: Fault = {
  path: SHELF,
  found: say('a newer Liftmap has brought the shelf up to its own form'),
  expected: say('the shelf as this Liftmap knows it'),
  todo: say('Export the case, then reload this page to get the newer Liftmap.'),
}

/** The disk, or the browser's share of it, is full. */
export const isNoRoom = (reason: unknown): boolean =>
  nameOf(reason) === 'QuotaExceededError' || NO_SPACE.test(messageOf(reason))

/** Any error that the database throws, as a fault. */
export function faultOfStorage(reason: unknown): Fault {
  const name = nameOf(reason)
  const message = messageOf(reason)
  if (isNoRoom(reason)) return full
  if (name === 'TimeoutError') return notAnswering
  if (name === 'VersionError') return ofNewer
  if (name === 'SecurityError') return noStorage
  return {
    path: SHELF,
    found: message === '' ? name : `${name}: ${message}`.slice(0, 300),
    expected: say('storage that can be read and written'),
    todo: say('Export the case, then reload this page. A private window may offer no storage.'),
  }
}

/**
 * As Chromium and Firefox name a disk that is full to the last byte, where they do not speak of quota. Chromium's was seen on
 * such a disk (`UnknownError`, `FILE_ERROR_NO_SPACE`), Firefox's is from memory.
 */
const NO_SPACE = /NO_SPACE|NO_DEVICE_SPACE|ENOSPC|no space left|disk (?:is )?full/i

const nameOf = (reason: unknown): string =>
  reason instanceof Error || reason instanceof DOMException ? reason.name : say('an error')

const messageOf = (reason: unknown): string =>
  reason instanceof Error || reason instanceof DOMException ? reason.message : String(reason)
