/** How the log's own words are said. */
import { say } from '../../base/index.ts'
import type { Found, PassEntry } from './log.ts'

export const outcomeWords: Readonly<Record<PassEntry['outcome'], string>> = {
  done: say('done'),
  failed: say('failed'),
  skipped: say('skipped'),
}

/** What lay under a part. */
export const foundWords: Readonly<Record<Found, string>> = {
  clean: say('clean'),
  wet: say('wet'),
  metal: say('metal'),
  corroded: say('corroded'),
  'torn-pad': say('torn pad'),
}
