/** What the columns of a report are called in sentences. */
import { say } from '../base/index.ts'
import type { ColumnRole } from './recipe.ts'

export const roleSaid: Readonly<Record<ColumnRole, string>> = {
  address: say('address'),
  end: say('end'),
  expected: say('expected'),
  actual: say('actual'),
  difference: say('difference'),
  count: say('count'),
  tested: say('tested'),
  status: say('status'),
  part: say('part'),
  channel: say('channel'),
  lane: say('lane'),
  bit: say('bit'),
  bits: say('bits'),
  packages: say('mask over packages'),
  ignore: say('ignore'),
}
