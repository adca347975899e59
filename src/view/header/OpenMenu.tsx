/** What can be opened: a file, a fresh case on this board or on another, a demo case, a page. */
import { say } from '../../base/index.ts'
import { Menu } from '@base-ui/react/menu'
import { ChevronDown, FolderOpen } from 'lucide-react'
import { useRef } from 'react'
import { showScanner } from '../actions/caseList.ts'
import { takeFile } from '../actions/drop.ts'
import { MESSAGE_CORNER } from '../actions/messages.ts'
import { openDemo, startOnThisBoard, startOwnCase } from '../actions/open.ts'
import { openPage } from '../actions/pages.ts'
import controls from '../controls/controls.module.css'
import { useBoard, useDesk } from '../stores/hooks.ts'
import { pageNames } from '../stores/pageNames.ts'
import { pages } from '../pages/pages.ts'
import styles from '../controls/menu.module.css'

export function OpenMenu() {
  const desk = useDesk()
  const board = useBoard()
  const chooser = useRef<HTMLInputElement>(null)
  return (
    <>
      <Menu.Root>
        <Menu.Trigger className={controls.button}>
          <FolderOpen size={16} aria-hidden="true" /> {say('Open')} <ChevronDown size={14} aria-hidden="true" />
        </Menu.Trigger>
        <Menu.Portal>
          <Menu.Positioner sideOffset={6} align="end" className={styles.positioner}>
            <Menu.Popup className={styles.menu}>
              <Menu.Item className={styles.item} onClick={() => chooser.current?.click()}>
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
      <input
        ref={chooser}
        type="file"
        hidden
        aria-label={say('File to open')}
        onChange={(event) => {
          const file = event.target.files?.[0]
          event.target.value = ''
          if (file !== undefined) void takeFile(desk, file, MESSAGE_CORNER)
        }}
      />
    </>
  )
}
