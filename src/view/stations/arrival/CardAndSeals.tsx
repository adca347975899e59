/** Which card it is, in what state it was handed in, and with what. */
import { intakeOf, sealStates, sealWords } from '../../../case/index.ts'
import { sentenceCase, say } from '../../../base/index.ts'
import { editCase } from '../../actions/edit.ts'
import { Choice, TextField } from '../../controls/fields.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import { editIntake, withCard } from './intake.ts'
import { Particulars } from './Particulars.tsx'

const seals = sealStates.map((value) => ({ value, words: sentenceCase(sealWords[value]) }))

export function CardAndSeals() {
  const desk = useDesk()
  const present = usePresent()
  if (present === undefined) return undefined
  const intake = intakeOf(present)
  const held = [
    present.card,
    intake.model,
    intake.serial,
    intake.seals === 'unknown'
      ? undefined
      : intake.seals === 'none'
        ? say('no seals')
        : say('seals {seals}', { seals: intake.seals }),
  ]
  return (
    <Particulars name={say('Card and seals')} held={held}>
      <div className={styles.two}>
        <TextField
          label={say('Card number')}
          maxLength={120}
          value={present.card ?? ''}
          onChange={(card) => editCase(desk, (c) => withCard(c, card), 'card')}
        />
        <TextField
          label={say('Model')}
          maxLength={200}
          value={intake.model}
          onChange={(model) => editIntake(desk, { model })}
        />
        <TextField
          label={say('Serial number')}
          maxLength={120}
          value={intake.serial}
          onChange={(serial) => editIntake(desk, { serial })}
        />
        <TextField
          label={say('Case title')}
          maxLength={200}
          value={present.title}
          onChange={(title) => title !== '' && editCase(desk, (c) => ({ ...c, title }), 'title')}
        />
      </div>
      <Choice
        label={say('Seals')}
        value={intake.seals}
        options={seals}
        onChange={(state) => editIntake(desk, { seals: state })}
      />
      <TextField
        label={say('Which seal, where')}
        maxLength={400}
        value={intake.sealsNote}
        onChange={(sealsNote) => editIntake(desk, { sealsNote })}
      />
      <TextField
        label={say('Came with it')}
        placeholder={say('box, cable, bracket')}
        maxLength={1000}
        value={intake.cameWith}
        onChange={(cameWith) => editIntake(desk, { cameWith })}
      />
      <TextField
        label={say('Earlier repairs')}
        maxLength={2000}
        value={intake.earlierRepairs}
        onChange={(earlierRepairs) => editIntake(desk, { earlierRepairs })}
      />
    </Particulars>
  )
}
