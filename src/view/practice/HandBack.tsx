/** Two ways of handing the card back, each said before it is chosen: there is no way back from either. */
import { say } from '../../base/index.ts'
import { Menu } from '@base-ui/react/menu'
import { ChevronDown, PackageCheck } from 'lucide-react'
import { doPractice } from '../actions/practice.ts'
import controls from '../controls/controls.module.css'
import menu from '../controls/menu.module.css'
import { useDesk } from '../stores/hooks.ts'
import styles from './practice.module.css'

interface HandBackProps {
  readonly busy: boolean
  /** Something was worked on since the last run. */
  readonly untested: boolean
}

export function HandBack({ busy, untested }: HandBackProps) {
  const desk = useDesk()
  return (
    <Menu.Root>
      <Menu.Trigger className={controls.button} data-tone="strong" disabled={busy}>
        <PackageCheck size={16} aria-hidden="true" /> {say('Hand back')} <ChevronDown size={14} aria-hidden="true" />
      </Menu.Trigger>
      <Menu.Portal>
        <Menu.Positioner sideOffset={6} align="end" className={styles.over}>
          <Menu.Popup className={menu.menu}>
            <Menu.Item
              className={menu.item}
              onClick={() => void doPractice(desk, { kind: 'hand-back', as: 'repaired' })}
            >
              {untested ? say('As repaired, without a run after the work') : say('As repaired')}
            </Menu.Item>
            <Menu.Item
              className={menu.item}
              onClick={() => void doPractice(desk, { kind: 'hand-back', as: 'not-worth-it' })}
            >
              {say('Unrepaired: not worth it')}
            </Menu.Item>
          </Menu.Popup>
        </Menu.Positioner>
      </Menu.Portal>
    </Menu.Root>
  )
}
