/** Text that is typed, pasted or in a file, and taken at once: what is wrong with it stands at its field, what came of it below. */
import { say } from '../../base/index.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../controls/Button.tsx'
import { TextField } from '../controls/fields.tsx'
import { FileButton } from '../controls/FileButton.tsx'
import styles from './own-board.module.css'

/** What came of a text, or what is wrong with it. */
export type Taken = { readonly said: string } | { readonly fault: string }

interface TextOrFileProps {
  readonly label: string
  readonly hint: string
  readonly takeWords: string
  readonly fileLabel: string
  readonly mostMegabytes: number
  readonly take: (text: string) => Taken | Promise<Taken>
  /** Between the field and its buttons. */
  readonly children?: ReactNode
}

export function TextOrFile({ label, hint, takeWords, fileLabel, mostMegabytes, take, children }: TextOrFileProps) {
  const [typed, setTyped] = useState('')
  const [taken, setTaken] = useState<Taken>()
  const takeAll = async (text: string): Promise<boolean> => {
    const next = await take(text)
    setTaken(next)
    return 'said' in next
  }
  const takeTyped = async (): Promise<void> => {
    if (await takeAll(typed)) setTyped('')
  }
  const takeFile = async (file: File): Promise<void> => {
    if (file.size > mostMegabytes * 1e6)
      setTaken({
        fault: say('{name} is longer than {mostMegabytes} MB. Give a part of it.', { name: file.name, mostMegabytes }),
      })
    else await takeAll(await file.text())
  }
  return (
    <>
      <TextField
        label={label}
        long
        hint={hint}
        value={typed}
        fault={taken !== undefined && 'fault' in taken ? taken.fault : undefined}
        onChange={(text) => {
          setTyped(text)
          setTaken(undefined)
        }}
      />
      {children}
      <div className={styles.buttons}>
        <Button disabled={typed.trim() === ''} onClick={() => void takeTyped()}>
          {takeWords}
        </Button>
        <FileButton label={fileLabel} onFile={(file) => void takeFile(file)}>
          {say('From a file')}
        </FileButton>
      </div>
      <p className={styles.quiet} role="status">
        {taken !== undefined && 'said' in taken ? taken.said : ''}
      </p>
    </>
  )
}
