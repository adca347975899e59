/** Whose card it is, and how to reach them. */
import { say } from '../../../base/index.ts'
import { intakeOf } from '../../../case/index.ts'
import { editArrival } from '../../actions/edit.ts'
import { TextField } from '../../controls/fields.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import { editIntake } from './intake.ts'
import { Particulars } from './Particulars.tsx'

export function OwnerAndContact() {
  const desk = useDesk()
  const present = usePresent()
  if (present === undefined) return undefined
  const { owner } = present.arrival
  const { phone, mail } = intakeOf(present)
  return (
    <Particulars name={say('Owner and contact')} held={[owner, phone, mail]}>
      <TextField
        label={say('Owner')}
        maxLength={400}
        value={owner}
        onChange={(next) => editArrival(desk, { owner: next })}
      />
      <div className={styles.two}>
        <TextField
          label={say('Phone')}
          maxLength={80}
          value={phone}
          onChange={(next) => editIntake(desk, { phone: next })}
        />
        <TextField
          label={say('Mail')}
          maxLength={200}
          value={mail}
          onChange={(next) => editIntake(desk, { mail: next })}
        />
      </div>
      <p className={styles.quiet}>
        {say('Phone and mail stay on this machine: on the slip and in the exported case, in no record.')}
      </p>
    </Particulars>
  )
}
