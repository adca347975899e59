/** What was spilled, as tiles: the plain word first, then which one; a group of radio buttons for the keyboard. */
import { say } from '../../../base/index.ts'
import { useId, useState } from 'react'
import { type Substance, substances as shipped, usualOf } from '../../../spill/index.ts'
import { LinkButton } from '../../controls/Button.tsx'
import controls from '../../controls/controls.module.css'
import { amountWords } from '../../stores/words.ts'
import { SubstancePicture } from './SubstancePicture.tsx'
import styles from './tiles.module.css'

/** What lies on boards most often stands in sight. */
const USUAL = ['coolant-eg', 'coolant-pg', 'gallium-indium', 'water', 'flux-fresh', 'thermal-paste']

interface SubstanceTilesProps {
  /** Of the case. */
  readonly own: readonly Substance[]
  readonly chosen: string
  readonly onChoose: (id: string) => void
}

export function SubstanceTiles({ own, chosen, onChoose }: SubstanceTilesProps) {
  const name = useId()
  const [isAll, setAll] = useState(false)
  const known = [...own, ...shipped.filter(({ id }) => !own.some((mine) => mine.id === id))]
  const usual = known.filter(({ id }) => USUAL.includes(id) || id === chosen || own.some((mine) => mine.id === id))
  const shown = isAll ? known : usual
  const substance = known.find(({ id }) => id === chosen)
  return (
    <fieldset className={styles.group}>
      <legend className={controls.label}>{say('What was it?')}</legend>
      <div className={styles.tiles}>
        {shown.map((each) => {
          const [plain, which] = splitName(each.name)
          return (
            <label key={each.id} className={styles.tile}>
              <input
                type="radio"
                name={name}
                checked={each.id === chosen}
                aria-label={each.name}
                onChange={() => onChoose(each.id)}
              />
              <SubstancePicture substance={each} />
              <span>
                <b>{plain}</b>
                <small>{which}</small>
              </span>
            </label>
          )
        })}
      </div>
      <p className={controls.hint}>
        {substance === undefined
          ? say('{chosen} is not known here. ', { chosen })
          : say('Usually {amount}. ', { amount: amountWords(usualOf(substance).amount) })}
        {!isAll && shown.length < known.length && (
          <LinkButton onClick={() => setAll(true)}>
            {say('{length} more substances', { length: known.length - shown.length })}
          </LinkButton>
        )}
      </p>
    </fieldset>
  )
}

/** `Liquid metal, gallium-indium eutectic` is the plain word and which one. */
function splitName(name: string): readonly [plain: string, which: string] {
  const comma = name.indexOf(',')
  return comma < 0 ? [name, ''] : [name.slice(0, comma), name.slice(comma + 1).trim()]
}
