/** The photos of a case: chosen or dropped, each with what can be done with it. */
import { say } from '../../../base/index.ts'
import { ImagePlus } from 'lucide-react'
import { useRef } from 'react'
import { takeFile } from '../../actions/drop.ts'
import { CameraButton } from '../../camera/CameraButton.tsx'
import { Button } from '../../controls/Button.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import own from './inspection.module.css'
import { PhotoCard } from './PhotoCard.tsx'

export function Photos() {
  const desk = useDesk()
  const photos = usePresent()?.photos ?? []
  const chooser = useRef<HTMLInputElement>(null)
  const button = useRef<HTMLButtonElement>(null)
  const take = async (files: readonly File[]): Promise<void> => {
    const corner = button.current?.getBoundingClientRect()
    for (const file of files) await takeFile(desk, file, { x: corner?.left ?? 40, y: corner?.bottom ?? 80 })
  }
  return (
    <section className={styles.section} aria-label={say('Photos')}>
      <div className={styles.heading}>
        <h3 className={styles.sub}>{say('Photos')}</h3>
        <span>{say('kept at full size, on this machine')}</span>
      </div>
      {photos.length > 0 && (
        <ul className={own.photos} aria-label={say('Photos of the card')}>
          {photos.map((photo) => (
            <li key={photo.id}>
              <PhotoCard photo={photo} />
            </li>
          ))}
        </ul>
      )}
      <div className={styles.row}>
        <Button ref={button} onClick={() => chooser.current?.click()}>
          <ImagePlus size={15} aria-hidden="true" /> {say('Add photos')}
        </Button>
        <CameraButton />
        <span className={styles.quiet}>{say('or drop them')}</span>
      </div>
      <input
        ref={chooser}
        type="file"
        multiple
        hidden
        accept="image/jpeg,image/png,image/webp"
        aria-label={say('Photos to add')}
        onChange={(event) => {
          const files = [...(event.target.files ?? [])]
          event.target.value = ''
          void take(files)
        }}
      />
    </section>
  )
}
