/** Opens the camera; what it takes is kept like a photo that was dropped. */
import { say } from '../../base/index.ts'
import { Camera } from 'lucide-react'
import { useState } from 'react'
import { MESSAGE_CORNER } from '../actions/messages.ts'
import { keepPhoto } from '../actions/photos.ts'
import { Button } from '../controls/Button.tsx'
import { useDesk, usePresent } from '../stores/hooks.ts'
import { PhotoCamera } from './index.ts'

export function CameraButton({ atIntake = false }: { readonly atIntake?: boolean }) {
  const desk = useDesk()
  const photos = usePresent()?.photos.length ?? 0
  const [open, setOpen] = useState(false)
  return (
    <>
      <Button aria-haspopup="dialog" onClick={() => setOpen(true)}>
        <Camera size={15} aria-hidden="true" /> {say('Camera…')}
      </Button>
      {open && (
        <PhotoCamera
          nextName={`camera-${photos + 1}.jpg`}
          onPhoto={(photo) => keepPhoto(desk, photo, MESSAGE_CORNER, atIntake)}
          onClose={() => setOpen(false)}
        />
      )}
    </>
  )
}
