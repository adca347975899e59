/** A button that opens the browser's own chooser of files. */
import { type ReactNode, useRef } from 'react'
import { Button } from './Button.tsx'

interface Place {
  readonly x: number
  readonly y: number
}

interface FileButtonProps {
  /** What the chooser takes, for those who can't see the button. */
  readonly label: string
  /** As the browser's chooser takes it; left out, all files are shown. */
  readonly accept?: string
  readonly children: ReactNode
}

/** `below` is where the button is, for a message about the file: the lower edge of what holds it, in px of the page. */
type Takes =
  | { readonly onFile: (file: File, below: Place) => void; readonly onFiles?: undefined }
  /** Several can be chosen at once. */
  | { readonly onFiles: (files: readonly File[], below: Place) => void; readonly onFile?: undefined }

export function FileButton({ label, accept, onFile, onFiles, children }: FileButtonProps & Takes) {
  const chooser = useRef<HTMLInputElement>(null)
  return (
    <>
      <Button onClick={() => chooser.current?.click()}>{children}</Button>
      <input
        ref={chooser}
        type="file"
        hidden
        accept={accept}
        multiple={onFiles !== undefined}
        aria-label={label}
        onChange={(event) => {
          const files = [...(event.target.files ?? [])]
          const [file] = files
          const box = event.target.parentElement?.getBoundingClientRect()
          event.target.value = ''
          if (file === undefined) return
          const below = { x: box === undefined ? 0 : box.left + box.width / 2, y: box?.bottom ?? 0 }
          if (onFiles === undefined) onFile(file, below)
          else onFiles(files, below)
        }}
      />
    </>
  )
}
