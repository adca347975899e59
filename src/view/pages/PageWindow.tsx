/** The page that is open, over the whole window; Escape or its button leads back to the case as it was left. */
import { say } from '../../base/index.ts'
import { Dialog } from '@base-ui/react/dialog'
import { ArrowLeft } from 'lucide-react'
import { closePage } from '../actions/pages.ts'
import controls from '../controls/controls.module.css'
import { useDesk, useScreen } from '../stores/hooks.ts'
import styles from './pages.module.css'
import { pages } from './pages.ts'

export function PageWindow() {
  const desk = useDesk()
  const name = useScreen((screen) => screen.page)
  const page = name === undefined ? undefined : pages[name]
  return (
    <Dialog.Root open={page !== undefined} onOpenChange={(next) => next || closePage(desk)}>
      <Dialog.Portal>
        <Dialog.Popup className={styles.page}>
          {page !== undefined && (
            <>
              <div className={styles.head}>
                <Dialog.Title className={styles.title}>{page.title}</Dialog.Title>
                <p>{page.about}</p>
                <Dialog.Close className={controls.button}>
                  <ArrowLeft size={16} aria-hidden="true" /> {say('Back to the case')}
                </Dialog.Close>
              </div>
              <div className={styles.body}>
                <page.Content />
              </div>
            </>
          )}
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  )
}
