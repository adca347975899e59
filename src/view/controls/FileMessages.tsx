/** What is to be said about a file, where it was dropped; and the progress of one that takes long. */
import { say } from '../../base/index.ts'
import { Popover } from '@base-ui/react/popover'
import { CircleAlert, Info, X } from 'lucide-react'
import { useMemo } from 'react'
import type { Fault, Point } from '../../base/index.ts'
import { closeMessage } from '../actions/messages.ts'
import { Button } from './Button.tsx'
import controls from './controls.module.css'
import { ProgressBar } from './pieces.tsx'
import { useDesk, useScreen } from '../stores/hooks.ts'
import type { FileMessage } from '../stores/screenStore.ts'
import styles from './files.module.css'

export function FileMessages() {
  const message = useScreen((screen) => screen.message)
  const busy = useScreen((screen) => screen.busy)
  return (
    <>
      {message !== undefined && <MessageAt message={message} />}
      {busy !== undefined && (
        <div className={styles.busy} role="status">
          <ProgressBar words={busy.words} share={busy.progress?.share} />
          <Button onClick={busy.cancel}>{say('Cancel')}</Button>
        </div>
      )}
    </>
  )
}

function MessageAt({ message }: { readonly message: FileMessage }) {
  const desk = useDesk()
  const anchor = useMemo(() => pointAnchor(message.at), [message.at])
  return (
    <Popover.Root open modal={false} onOpenChange={(open) => open || closeMessage(desk)}>
      <Popover.Portal>
        <Popover.Positioner
          anchor={anchor}
          sideOffset={10}
          side="bottom"
          className={styles.positioner}
          collisionPadding={12}
        >
          <Popover.Popup className={styles.popup} data-tone={message.tone}>
            <div className={styles.head}>
              {message.tone === 'fault' ? (
                <CircleAlert size={18} aria-hidden="true" />
              ) : (
                <Info size={18} aria-hidden="true" />
              )}
              <Popover.Title className={styles.title}>{message.title}</Popover.Title>
              <Popover.Close className={controls.button} data-size="icon" data-tone="quiet" aria-label={say('Close')}>
                <X size={16} aria-hidden="true" />
              </Popover.Close>
            </div>
            <Popover.Description render={<div />}>
              <ul className={styles.faults} tabIndex={0} aria-label={say('What was found')}>
                {message.faults.map((fault) => (
                  <FaultRow key={`${fault.path} ${fault.found} ${fault.expected}`} fault={fault} />
                ))}
                {message.lines.map((line) => (
                  <li key={line}>{line}</li>
                ))}
              </ul>
              {message.tone === 'fault' && <p className={controls.hint}>{say('Nothing of it was loaded.')}</p>}
            </Popover.Description>
          </Popover.Popup>
        </Popover.Positioner>
      </Popover.Portal>
    </Popover.Root>
  )
}

export function FaultRow({ fault }: { readonly fault: Fault }) {
  return (
    <li>
      <code>{fault.path}</code>
      <span>
        {say('found')} <b>{fault.found}</b>
        {say(', expected')} {fault.expected}.
      </span>
      {fault.todo !== undefined && <span className={styles.todo}>{fault.todo}</span>}
    </li>
  )
}

const pointAnchor = ({ x, y }: Point) => ({ getBoundingClientRect: () => new DOMRect(x, y, 0, 0) })
