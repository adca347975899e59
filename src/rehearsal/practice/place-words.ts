/** Names of what is no part and is put right (`rail VMEM`, `slip s1`, a track by its lane), as they are said. */
import { say } from '../../base/index.ts'
import { placeSaid } from '../../suspects/index.ts'

const SLIP = /^slip (.*)$/

/** The name in the language that is spoken; any other text, such as a part's ref, as it is. */
export function workplaceSaid(name: string): string {
  const id = SLIP.exec(name)?.[1]
  return id === undefined ? placeSaid(name) : say('slip {id}', { id })
}
