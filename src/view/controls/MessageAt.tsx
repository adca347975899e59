/** What is said about a file, beside the place where it was dropped. */
import { Popover } from '@base-ui/react/popover'
import { CircleAlert, Info, X } from 'lucide-react'
import { useMemo } from 'react'
import { type Point, say } from '../../base/index.ts'
import { closeMessage } from '../actions/messages.ts'
import controls from './controls.module.css'
import { FaultRow } from './FaultRow.tsx'
import { useDesk } from '../stores/hooks.ts'
import type { FileMessage } from '../stores/screenStore.ts'
import styles from './files.module.css'

export function MessageAt({ message }: { readonly message: FileMessage }) {
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

const pointAnchor = ({ x, y }: Point) => ({ getBoundingClientRect: () => new DOMRect(x, y, 0, 0) })
