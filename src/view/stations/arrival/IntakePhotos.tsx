/** Photos of the card as it was handed in, and its slip. */
import { say } from '../../../base/index.ts'
import { Printer } from 'lucide-react'
import { useState } from 'react'
import { codeWords, intakeOf } from '../../../case/index.ts'
import { keepPhoto } from '../../actions/photos.ts'
import { CameraButton } from '../../camera/CameraButton.tsx'
import { Button } from '../../controls/Button.tsx'
import { FileButton } from '../../controls/FileButton.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import { PhotoThumb } from '../inspection/PhotoThumb.tsx'
import own from './arrival.module.css'
import { giveCode } from './intake.ts'
import { Slip } from './Slip.tsx'

export function IntakePhotos() {
  const desk = useDesk()
  const photos = usePresent()?.photos.filter(({ atIntake }) => atIntake === true) ?? []
  const take = async (files: readonly File[], below: { x: number; y: number }): Promise<void> => {
    for (const file of files) await keepPhoto(desk, file, below, true)
  }
  return (
    <section className={styles.section} aria-label={say('Photos at intake')}>
      <div className={styles.row}>
        <CameraButton atIntake />
        <FileButton
          label={say('Photos at intake')}
          accept="image/jpeg,image/png,image/webp"
          onFiles={(files, below) => void take(files, below)}
        >
          {say('Photo files…')}
        </FileButton>
        <SlipButton />
      </div>
      {photos.length > 0 && (
        <ul className={own.thumbs} aria-label={say('Photos taken at intake')}>
          {photos.map(({ id, name }) => (
            <li key={id} title={name}>
              <PhotoThumb id={id} />
              <span className="visually-hidden">{name}</span>
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}

function SlipButton() {
  const desk = useDesk()
  const present = usePresent()
  const [open, setOpen] = useState(false)
  if (present === undefined) return undefined
  const { code } = intakeOf(present)
  const show = (): void => {
    giveCode(desk)
    setOpen(true)
  }
  return (
    <>
      <Button aria-haspopup="dialog" onClick={show}>
        <Printer size={15} aria-hidden="true" /> {say('Intake slip…')}
      </Button>
      {code !== undefined && <span className={own.code}>{codeWords(code)}</span>}
      {open && <Slip onClose={() => setOpen(false)} />}
    </>
  )
}
