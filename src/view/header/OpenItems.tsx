/** The lines of the Open menu. */
import { say } from '../../base/index.ts'
import { Menu } from '@base-ui/react/menu'
import { type RefObject, useEffect, useRef } from 'react'
import { showScanner } from '../actions/caseList.ts'
import { MESSAGE_CORNER } from '../actions/messages.ts'
import { openDemo, startOnThisBoard, startOwnCase } from '../actions/open.ts'
import { openPage } from '../actions/pages.ts'
import { useBoard, useDesk } from '../stores/hooks.ts'
import { pageNames } from '../stores/pageNames.ts'
import { pages } from '../pages/pages.ts'
import styles from '../controls/menu.module.css'

interface OpenItemsProps {
  readonly open: boolean
  readonly onOpenChange: (open: boolean) => void
  /** What opened it: the menu hangs there, and the focus goes back to it. */
  readonly button: RefObject<HTMLButtonElement | null>
  readonly chooseFile: () => void
  /** Opened by keys: its first line has the focus at once. */
  readonly byKeys: boolean
}

export function OpenItems({ open, onOpenChange, button, chooseFile, byKeys }: OpenItemsProps) {
  const popup = useRef<HTMLDivElement>(null)
  useEffect(() => {
    if (!open || !byKeys) return
    const first = requestAnimationFrame(() => popup.current?.querySelector<HTMLElement>('[role="menuitem"]')?.focus())
    return () => cancelAnimationFrame(first)
  }, [open, byKeys])
  const desk = useDesk()
  const board = useBoard()
  return (
    <Menu.Root open={open} onOpenChange={onOpenChange}>
      <Menu.Portal>
        <Menu.Positioner anchor={button} sideOffset={6} align="end" className={styles.positioner}>
          <Menu.Popup ref={popup} className={styles.menu} finalFocus={button} aria-label={say('Open')}>
            <Menu.Item className={styles.item} onClick={() => chooseFile()}>
              {say('A file: case, board, layout or report…')}
            </Menu.Item>
            <Menu.Item className={styles.item} onClick={() => showScanner(desk)}>
              {say('The case of a slip: scan its code…')}
            </Menu.Item>
            <Menu.Item className={styles.item} onClick={() => void startOwnCase(desk)}>
              {say('A new case: choose its card…')}
            </Menu.Item>
            <Menu.Item
              className={styles.item}
              disabled={board === undefined}
              onClick={() => void startOnThisBoard(desk)}
            >
              {say('A fresh case on this board')}
            </Menu.Item>
            <Menu.Group>
              <Menu.GroupLabel className={styles.groupLabel}>{say('Demo cases, invented')}</Menu.GroupLabel>
              {desk.shelf.cases.map((entry) => (
                <Menu.Item
                  key={entry.name}
                  className={styles.item}
                  onClick={() => void openDemo(desk, entry.name, MESSAGE_CORNER)}
                >
                  {entry.title}
                </Menu.Item>
              ))}
            </Menu.Group>
            <Menu.Group>
              <Menu.GroupLabel className={styles.groupLabel}>{say('Beside the case')}</Menu.GroupLabel>
              {pageNames.map((name) => (
                <Menu.Item key={name} className={styles.item} onClick={() => openPage(desk, name)}>
                  {pages[name].title}
                </Menu.Item>
              ))}
            </Menu.Group>
          </Menu.Popup>
        </Menu.Positioner>
      </Menu.Portal>
    </Menu.Root>
  )
}
