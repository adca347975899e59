/** Firmware: saved before anything is written, where the copy lies, written or not. */
import { FIRMWARE_CAUTION, type Firmware } from '../../../case/index.ts'
import { Choice, TextField } from '../../controls/fields.tsx'
import { CautionBox } from '../../controls/pieces.tsx'
import { useDesk } from '../../stores/hooks.ts'
import { editFirmware } from './edit.ts'

const answers = [
  { value: 'yes', words: 'Yes' },
  { value: 'no', words: 'No' },
  { value: 'unknown', words: 'Not said' },
] as const

export function FirmwareFields({ firmware }: { readonly firmware: Firmware }) {
  const desk = useDesk()
  return (
    <>
      <CautionBox title="Save the firmware before you write any." reasons={[FIRMWARE_CAUTION]} />
      <Choice
        label="Saved, two equal copies"
        value={firmware.saved}
        options={answers}
        onChange={(saved) => editFirmware(desk, { saved })}
      />
      <TextField
        label="File, version, check sum"
        maxLength={400}
        value={firmware.where}
        onChange={(where) => editFirmware(desk, { where })}
      />
      <Choice
        label="Written"
        value={firmware.written}
        options={answers}
        onChange={(written) => editFirmware(desk, { written })}
      />
    </>
  )
}
