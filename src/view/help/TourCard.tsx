/** A stop of the tour: a card over the foot of the sheet; the station behind it can be used meanwhile. */
import { say } from '../../base/index.ts'
import { X } from 'lucide-react'
import { startOwnCase } from '../actions/open.ts'
import { Button } from '../controls/Button.tsx'
import { useDesk, useScreen } from '../stores/hooks.ts'
import styles from './help.module.css'
import { endTour, goToStop, tourStops } from './tour.ts'

export function TourCard() {
  const desk = useDesk()
  const stop = useScreen((screen) => screen.tourStop)
  const shown = stop === undefined ? undefined : tourStops[stop]
  if (stop === undefined || shown === undefined) return undefined
  const isLast = stop === tourStops.length - 1
  return (
    <aside className={styles.tour} aria-label={say('Tour')}>
      <p className={styles.count}>{say('{stop} of {length}', { stop: stop + 1, length: tourStops.length })}</p>
      <div role="status">
        <h2>{shown.title}</h2>
        <p>{shown.words}</p>
      </div>
      <div className={styles.buttons}>
        <Button disabled={stop === 0} onClick={() => goToStop(desk, stop - 1)}>
          {say('Back')}
        </Button>
        {isLast ? (
          <Button
            tone="strong"
            onClick={() => {
              endTour(desk)
              void startOwnCase(desk)
            }}
          >
            {say('Start my own case')}
          </Button>
        ) : (
          <Button tone="strong" onClick={() => goToStop(desk, stop + 1)}>
            {say('Next')}
          </Button>
        )}
        <Button size="icon" tone="quiet" aria-label={say('End the tour')} onClick={() => endTour(desk)}>
          <X size={16} aria-hidden="true" />
        </Button>
      </div>
    </aside>
  )
}
