/** How long each part of the list has been out of the dry bag: over its floor life it is baked first. */
import { say } from '../../../base/index.ts'
import type { Case } from '../../../case/index.ts'
import { editCase } from '../../actions/edit.ts'
import { SelectField } from '../../controls/fields.tsx'
import { Opening } from '../../controls/pieces.tsx'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import styles from './plan.module.css'

type State = Case['floorLife'][number]['state']

const states: readonly { readonly value: State; readonly words: string }[] = [
  { value: 'within', words: say('within its floor life') },
  { value: 'over by at most 72 h', words: say('over by at most 72 h') },
  { value: 'over by more or unknown', words: say('over by more, or unknown') },
]

export function FloorLife({ refs }: { readonly refs: readonly string[] }) {
  const desk = useDesk()
  const floorLife = usePresent()?.floorLife ?? []
  const over = floorLife.filter(({ state }) => state !== 'within').length
  const set = (ref: string, state: State): void =>
    editCase(desk, (c) => ({
      ...c,
      floorLife: [...c.floorLife.filter((entry) => entry.ref !== ref), ...(state === 'within' ? [] : [{ ref, state }])],
    }))
  return (
    <Opening
      summary={over === 0 ? say('Time out of the dry bag') : say('Time out of the dry bag: {over} over', { over })}
    >
      <div className={styles.figures}>
        {refs.map((ref) => (
          <SelectField
            key={ref}
            label={ref}
            value={floorLife.find((entry) => entry.ref === ref)?.state ?? 'within'}
            options={states}
            onChange={(state) => set(ref, state)}
          />
        ))}
      </div>
    </Opening>
  )
}
