/** Advice to the owner, in the technician's words; sentences that fit the case are offered. */
import { say } from '../../../base/index.ts'
import { Plus } from 'lucide-react'
import { adviceDrafts } from '../../../case/index.ts'
import { addLine, editHandBack } from './handBack.ts'
import { TextField } from '../../controls/fields.tsx'
import panel from '../../controls/panel.module.css'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import styles from './handback.module.css'

export function Advice() {
  const desk = useDesk()
  const present = usePresent()
  if (present === undefined) return undefined
  const { advice } = present.handBack
  const offered = adviceDrafts(present).filter((sentence) => !advice.includes(sentence))
  return (
    <section className={panel.section} aria-label={say('Advice to the owner')}>
      <TextField
        label={say('Advice to the owner')}
        labelHidden
        hint={say('Stands in the owner’s record as you write it.')}
        long
        maxLength={8000}
        value={advice}
        onChange={(next) => editHandBack(desk, { advice: next })}
      />
      {offered.length > 0 && (
        <ul className={styles.offers} aria-label={say('Sentences that fit this case')}>
          {offered.map((sentence) => (
            <li key={sentence}>
              <button
                type="button"
                onClick={() => editHandBack(desk, { advice: addLine(advice, sentence).slice(0, 8000) })}
              >
                <Plus size={14} aria-hidden="true" />
                <span className="visually-hidden">{say('Add: ')}</span>
                {sentence}
              </button>
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}
