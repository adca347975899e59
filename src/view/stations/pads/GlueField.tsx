/** What holds a part beside its solder; set here it goes into the board of the case, and the plan follows. */
import { say } from '../../../base/index.ts'
import type { BoardModel } from '../../../board/index.ts'
import { type Bonding, setBonding } from '../../actions/bonding.ts'
import { SelectField } from '../../controls/fields.tsx'
import { useDesk } from '../../stores/hooks.ts'

const bondings: readonly { readonly value: Bonding; readonly words: string }[] = [
  { value: 'none', words: say('no glue') },
  { value: 'corner', words: say('glue at the corners') },
  { value: 'edge', words: say('glue all around') },
  { value: 'underfill', words: say('underfill') },
]

export const bondingWords = (bonding: Bonding): string =>
  bondings.find(({ value }) => value === bonding)?.words ?? bonding

interface GlueFieldProps {
  readonly model: BoardModel
  readonly id: string
}

/** Nothing for a part that is not on this board. */
export function GlueField({ model, id }: GlueFieldProps) {
  const desk = useDesk()
  const bonding = model.partByRef.get(id)?.description.bonding
  if (bonding === undefined) return undefined
  return (
    <SelectField
      label={say('Glue at {id}', { id })}
      value={bonding}
      options={bondings}
      onChange={(chosen) => setBonding(desk, model, [id], chosen)}
    />
  )
}
