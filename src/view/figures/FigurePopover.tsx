/** What a number opens: what it is, its formula, its inputs with their values here, its source, what it does not know. */
import { say } from '../../base/index.ts'
import { Popover } from '@base-ui/react/popover'
import { X } from 'lucide-react'
import type { RefObject } from 'react'
import controls from '../controls/controls.module.css'
import { useDesk } from '../stores/hooks.ts'
import { explain } from './catalogue.ts'
import type { Figure } from './figure.ts'
import styles from './figures.module.css'
import { knownOf } from './known.ts'

interface FigurePopoverProps {
  readonly of: Figure
  readonly anchor: RefObject<HTMLButtonElement | null>
  readonly onClose: () => void
}

export function FigurePopover({ of, anchor, onClose }: FigurePopoverProps) {
  const known = knownOf(useDesk())
  const { title, formula, inputs, source, limit } = explain(of, known)
  return (
    <Popover.Root open modal={false} onOpenChange={(open) => open || onClose()}>
      <Popover.Portal>
        <Popover.Positioner anchor={anchor} sideOffset={6} collisionPadding={12} className={styles.positioner}>
          <Popover.Popup
            className={styles.popup}
            finalFocus={anchor}
            // what is pressed in here is no press on the line around the number
            onClick={(event) => event.stopPropagation()}
            onPointerDown={(event) => event.stopPropagation()}
          >
            <div className={styles.head}>
              <Popover.Title className={styles.title}>{title}</Popover.Title>
              <Popover.Close className={controls.button} data-size="icon" data-tone="quiet" aria-label={say('Close')}>
                <X size={16} aria-hidden="true" />
              </Popover.Close>
            </div>
            <Popover.Description render={<div />} className={styles.body}>
              <dl className={styles.inputs} aria-label={say('What went in')}>
                {inputs.map(({ name, value }) => (
                  <div key={name}>
                    <dt>{name}</dt>
                    <dd>{value}</dd>
                  </div>
                ))}
              </dl>
              <dl className={styles.rule}>
                <dt>{say('How')}</dt>
                <dd>{formula}</dd>
                <dt>{say('Source')}</dt>
                <dd>{source}</dd>
                <dt>{say('Mind')}</dt>
                <dd>{limit}</dd>
              </dl>
            </Popover.Description>
          </Popover.Popup>
        </Popover.Positioner>
      </Popover.Portal>
    </Popover.Root>
  )
}
