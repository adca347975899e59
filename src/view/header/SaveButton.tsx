/** Whether the case is kept, in a word; and the case as one file to hand on. */
import { say } from '../../base/index.ts'
import { Check, CircleAlert, Download, PencilLine } from 'lucide-react'
import { useStore } from 'zustand'
import { downloadCase } from '../actions/onDemand.ts'
import { MESSAGE_CORNER } from '../actions/messages.ts'
import { Button } from '../controls/Button.tsx'
import { useDesk } from '../stores/hooks.ts'
import { isUnkept } from '../stores/savingStore.ts'
import styles from './header.module.css'

export function SaveButton() {
  const desk = useDesk()
  const open = useStore(desk.cases, ({ history }) => history !== undefined)
  const withPhotos = useStore(desk.cases, ({ history }) => (history?.present.photos.length ?? 0) > 0)
  return (
    <>
      {open && <KeptWord />}
      <Button
        tone="strong"
        disabled={!open}
        onClick={() => void downloadCase(desk, MESSAGE_CORNER)}
        title={
          withPhotos
            ? say('Saves the case with its board, reports and photos as one file that any Liftmap opens')
            : say('Saves the case with its board and reports as one file that any Liftmap opens')
        }
      >
        <Download size={16} aria-hidden="true" /> {say('Export')}
      </Button>
    </>
  )
}

const words = {
  kept: { Icon: Check, word: say('Saved'), about: say('Kept in this browser as you type') },
  pageOnly: { Icon: CircleAlert, word: say('Not saved'), about: say('Lasts only as long as this page: export it') },
  keeping: { Icon: PencilLine, word: say('Saving'), about: say('Being kept') },
  refused: { Icon: CircleAlert, word: say('Not saved'), about: say('Why, and what to do, stands below') },
  demo: { Icon: Check, word: say('Demo'), about: say('Kept as soon as you change something') },
} as const

function KeptWord() {
  const desk = useDesk()
  const refused = useStore(desk.saving, ({ trouble, conflict }) => trouble !== undefined || conflict !== undefined)
  const shelved = useStore(desk.saving, (saving) => saving.shelved)
  const unheld = useStore(desk.saving, (saving) => saving.unheld)
  const differs = useStore(desk.cases, ({ history }) => isUnkept({ shelved, unheld }, history))
  const kept = desk.caseShelf.lasting ? 'kept' : 'pageOnly'
  const state = refused ? 'refused' : differs ? 'keeping' : shelved?.rev === 0 ? 'demo' : kept
  const { Icon, word, about } = words[state]
  return (
    <span className={styles.kept} data-state={state} title={about}>
      <Icon size={15} aria-hidden="true" /> {word}
    </span>
  )
}
