/** A button that opens the browser's own chooser of files. */
import { type ReactNode, useRef } from 'react'
import { Button } from './Button.tsx'

interface FileButtonProps {
  /** What the chooser takes, for those who can't see the button. */
  readonly label: string
  /** As the browser's chooser takes it; left out, all files are shown. */
  readonly accept?: string
  /** @param below where the button is, for a message about the file: the lower edge of what holds it, in px of the page */
  readonly onFile: (file: File, below: { readonly x: number; readonly y: number }) => void
  readonly children: ReactNode
}

export function FileButton({ label, accept, onFile, children }: FileButtonProps) {
  const chooser = useRef<HTMLInputElement>(null)
  return (
    <>
      <Button onClick={() => chooser.current?.click()}>{children}</Button>
      <input
        ref={chooser}
        type="file"
        hidden
        accept={accept}
        aria-label={label}
        onChange={(event) => {
          const file = event.target.files?.[0]
          const box = event.target.parentElement?.getBoundingClientRect()
          event.target.value = ''
          if (file === undefined) return
          onFile(file, { x: box === undefined ? 0 : box.left + box.width / 2, y: box?.bottom ?? 0 })
        }}
      />
    </>
  )
}
