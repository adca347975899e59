/** At the foot of a panel: on to the station that comes after it in the visit. */
import { say } from '../../base/index.ts'
import { ArrowRight } from 'lucide-react'
import { type Station, stations } from '../../case/index.ts'
import { goToStation } from '../actions/goToStation.ts'
import { Button } from '../controls/Button.tsx'
import styles from '../controls/panel.module.css'
import { useDesk } from '../stores/hooks.ts'
import { entries } from '../stations/entries.ts'

export function NextStation({ station }: { readonly station: Station }) {
  const desk = useDesk()
  const next = stations[stations.indexOf(station) + 1]
  if (next === undefined) return undefined
  return (
    <div className={styles.foot}>
      <Button aria-keyshortcuts={entries[next].key} onClick={() => goToStation(desk, next)}>
        {say('Next:')} {entries[next].name} <ArrowRight size={15} aria-hidden="true" />
      </Button>
    </div>
  )
}
