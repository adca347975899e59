/** What it is measured with, behind one line that says how it stands: the leads of cold readings, a bench meter that is not connected. */
import { say } from '../../../base/index.ts'
import type { Phase, Quantity } from '../../../measure/index.ts'
import { Opening } from '../../controls/pieces.tsx'
import styles from '../../controls/panel.module.css'
import { usePresent } from '../../stores/hooks.ts'
import { useMeter } from '../../stores/meterStore.ts'
import { LeadsChoice, leadsWords } from './LeadsChoice.tsx'
import { MeterBar } from './MeterBar.tsx'

/** A meter that is connected is at hand beside the fields. */
export function BenchMeans({ quantity, phase }: { readonly quantity: Quantity; readonly phase: Phase }) {
  const leads = usePresent()?.leads
  const isReachable = useMeter(({ ports }) => ports !== undefined)
  const isConnected = useMeter(({ meter }) => meter !== undefined)
  const isAway = isReachable && !isConnected
  const held = [
    ...(quantity === 'ohms' ? [say('Leads: {leads}', { leads: leadsWords(leads) })] : []),
    ...(isAway ? [quantity === 'ohms' ? say('no meter') : say('Bench meter: not connected')] : []),
  ]
  return (
    <>
      {held.length > 0 && (
        <Opening summary={held.join('; ')}>
          <div className={styles.section}>
            {quantity === 'ohms' && <LeadsChoice />}
            {isAway && <MeterBar quantity={quantity} phase={phase} />}
          </div>
        </Opening>
      )}
      {isConnected && <MeterBar quantity={quantity} phase={phase} />}
    </>
  )
}
