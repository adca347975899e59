/** Firmware: saved before anything is written, where the copy lies, written or not. */
import { say } from '../../../base/index.ts'
import { FIRMWARE_CAUTION, type Firmware } from '../../../case/index.ts'
import { Choice, TextField } from '../../controls/fields.tsx'
import { CautionBox } from '../../controls/pieces.tsx'
import { useDesk } from '../../stores/hooks.ts'
import { editFirmware } from './edit.ts'

const answers = [
  { value: 'yes', words: say('Yes') },
  { value: 'no', words: say('No') },
  { value: 'unknown', words: say('Not said') },
] as const

export function FirmwareFields({ firmware }: { readonly firmware: Firmware }) {
  const desk = useDesk()
  return (
    <>
      <CautionBox title={say('Save the firmware before you write any.')} reasons={[FIRMWARE_CAUTION]} />
      <Choice
        label={say('Saved, two equal copies')}
        value={firmware.saved}
        options={answers}
        onChange={(saved) => editFirmware(desk, { saved })}
      />
      <TextField
        label={say('File, version, check sum')}
        maxLength={400}
        value={firmware.where}
        onChange={(where) => editFirmware(desk, { where })}
      />
      <Choice
        label={say('Written')}
        value={firmware.written}
        options={answers}
        onChange={(written) => editFirmware(desk, { written })}
      />
    </>
  )
}
